// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// A pinion on a toothed rack: heights, travel, contact ratio, clearances, backlash.
#ifndef RACKWORK_RACK_MESH_HPP
#define RACKWORK_RACK_MESH_HPP

#include "basic_rack.hpp"
#include "core/angle.hpp"
#include "core/elementary.hpp"
#include "core/error.hpp"
#include "core/scalar.hpp"
#include "gear.hpp"
#include "generated_root.hpp"

namespace rackwork {

/// The numbers that define a toothed rack. Its module, pressure angle and helix angle are those of its pinion; the helix leans the other way,
/// so that the teeth fit. Lengths are in the module's unit.
template <scalar T = double>
struct rack_parameters {
    /// The rack's own profile: its addendum, dedendum and root fillet radius as factors of the module. The pressure angle is the pinion's.
    basic_rack<T> profile = iso_53_a;
    /// Tooth thickness allowance on the datum line, normal section, E_sn. Negative thins the teeth.
    T thickness_allowance{0};
    /// Face width, b. 0 where it is not stated.
    T face_width{0};
    /// Height of the datum line over the rack's mounting face. 0 where it is not stated: heights then count from the datum line.
    T datum_height{0};
};

/// A pinion and the rack that it drives, and how far apart they stand. Immutable; usable in constant expressions.
///
/// A rack is a wheel of infinitely many teeth: its flanks are straight, the working pressure angle is always alpha_t and the pinion always
/// rolls on its reference circle. Formulas: ISO 21771:2007, the limit of those of a pair. Accuracy for double: 8 ulp of the reference
/// diameter for lengths; contact ratio accordingly.
template <scalar T = double>
class rack_mesh {
public:
    /// At the height at which the teeth, as the profile shift alone makes them, run without backlash: the pitch line touches the pinion's
    /// reference circle x m_n over the datum line. Throws geometry_error for an impossible rack or an internal pinion.
    constexpr rack_mesh(const gear<T>& pinion, const rack_parameters<T>& rack) : rack_mesh(pinion, rack, fitting_height(pinion, rack)) {}
    /// The same with a root of the pinion that a stated tool makes.
    constexpr rack_mesh(const gear<T>& pinion, const rack_parameters<T>& rack, const generated_root<T>& root)
        : rack_mesh(pinion, rack, fitting_height(pinion, rack), root) {}

    /// At a given height of the pinion's axis over the mounting face. Throws geometry_error also if the rack's tips would reach the axis.
    constexpr rack_mesh(const gear<T>& pinion, const rack_parameters<T>& rack, const T& pinion_height)
        : rack_mesh(pinion, rack, pinion_height, generated_root<T>(pinion)) {}
    /// The same with a root of the pinion that a stated tool makes.
    constexpr rack_mesh(const gear<T>& pinion, const rack_parameters<T>& rack, const T& pinion_height, const generated_root<T>& root)
        : pinion_(pinion), rack_(rack), root_(root), height_(pinion_height) {
        require(check(pinion, rack, pinion_height));
    }

    /// What keeps a pinion from running on a rack at a height, or nothing.
    static constexpr violation check(const gear<T>& pinion, const rack_parameters<T>& rack, const T& pinion_height) {
        if (pinion.is_internal()) return {"kind of the pinion", 1, "must be external", 0, false};
        const violation profile = rackwork::check(with_angle(rack.profile, pinion.normal_pressure_angle()));
        if (const violation v = first_of(profile, check_finite("thickness_allowance", rack.thickness_allowance),
                                         check_at_least("face_width", rack.face_width, T(0)),
                                         check_at_least("datum_height", rack.datum_height, T(0)),
                                         check_finite("pinion_height", pinion_height))) {
            return v;
        }
        const T m = pinion.normal_module();
        return first_of(check_greater("pinion_height", pinion_height, T(rack.datum_height + m * rack.profile.addendum)),
                        check_less("pinion_height", pinion_height, T(rack.datum_height + T(2) * pinion.tip_diameter())));
    }

    constexpr const gear<T>& pinion() const { return pinion_; }
    constexpr const rack_parameters<T>& rack() const { return rack_; }

    /// Height of the pinion's axis over the rack's mounting face (over its datum line where the datum's height is not stated).
    constexpr const T& pinion_height() const { return height_; }
    /// Distance of the pinion's axis from the rack's datum line, H. r + x m_n without backlash.
    constexpr T distance_to_datum_line() const { return T(height_ - rack_.datum_height); }
    /// Travel of the rack for one turn of the pinion, pi d = z p_t.
    constexpr T travel_per_turn() const { return T(pi<T>() * pinion_.reference_diameter()); }
    /// Travel of the rack while the pinion turns through an angle, r phi.
    constexpr T travel(const angle<T>& turn) const { return T(pinion_.reference_diameter() / T(2) * turn.rad()); }
    /// Working pressure angle: alpha_t, whatever the height.
    constexpr angle<T> working_pressure_angle() const { return pinion_.transverse_pressure_angle(); }

    /// Radius of curvature of the pinion's flank where contact begins (at the rack's tip, or where the pinion's involute does) and where it
    /// ends (at the pinion's tip, or at the rack's root fillet).
    constexpr T pinion_roll_at_start_of_contact() const {
        return larger(reach_of_rack_tip(), T(pinion_.base_diameter() / T(2) * root_.root_form_roll()));
    }
    constexpr T pinion_roll_at_end_of_contact() const {
        const T form_depth = pinion_.normal_module() * with_angle(rack_.profile, pinion_.normal_pressure_angle()).form_dedendum();
        return smaller(T(pinion_.base_diameter() / T(2) * pinion_.tip_form_roll()), roll_at_height(T(-form_depth)));
    }
    /// Where on the line of action the rack's tip begins its work, from the point where that line touches the base circle. Negative when
    /// it reaches beyond that point.
    constexpr T reach_of_rack_tip() const { return roll_at_height(T(pinion_.normal_module() * rack_.profile.addendum)); }
    /// Length of the path of contact, g_alpha. Zero when the teeth do not reach each other.
    constexpr T length_of_path_of_contact() const {
        return larger(T(pinion_roll_at_end_of_contact() - pinion_roll_at_start_of_contact()), T(0));
    }
    /// Transverse contact ratio, epsilon_alpha = g_alpha / p_et.
    constexpr T transverse_contact_ratio() const { return T(length_of_path_of_contact() / pinion_.transverse_base_pitch()); }
    /// Overlap ratio, epsilon_beta = b sin |beta| / (pi m_n). Throws geometry_error for helical teeth of which a face width is not stated.
    constexpr T overlap_contact_ratio() const {
        const T sine = magnitude(T(pinion_.tangent_of_helix_angle() * pinion_.cosine_of_helix_angle()));
        if (sine == T(0)) return T(0);
        const T width = smaller(pinion_.parameters().face_width, rack_.face_width);
        require(check_greater("face_width", width, T(0)));
        return T(width * sine / pinion_.normal_pitch());
    }
    /// Total contact ratio, epsilon_gamma = epsilon_alpha + epsilon_beta. Throws as overlap_contact_ratio does.
    constexpr T total_contact_ratio() const { return T(transverse_contact_ratio() + overlap_contact_ratio()); }

    /// Bottom clearance between the pinion's tip and the rack's root, and between the rack's tip and the pinion's root; the roots as
    /// generated, since a tool that thins the teeth also goes deeper.
    constexpr T clearance_of_pinion_tip() const {
        const T deeper = rack_.thickness_allowance / (T(2) * pinion_.tangent_of_normal_pressure_angle());
        const T root_depth = pinion_.normal_module() * rack_.profile.dedendum - deeper;
        return T(distance_to_datum_line() + root_depth - pinion_.effective_tip_diameter() / T(2));
    }
    constexpr T clearance_of_rack_tip() const {
        return T(distance_to_datum_line() - pinion_.normal_module() * rack_.profile.addendum - root_.root_diameter() / T(2));
    }

    /// Backlash along the rack's travel, j_t = 2 (H - r - x m_n) tan alpha_t - (E_sn1 + E_sn2)/cos beta: how far the rack can be moved while
    /// the pinion stands. Negative when the teeth would have to overlap.
    constexpr T circumferential_backlash() const {
        const T opening = distance_to_datum_line() - pinion_.shifted_reference_diameter() / T(2);
        const T allowances = pinion_.parameters().thickness_allowance + rack_.thickness_allowance;
        return T(T(2) * opening * pinion_.tangent_of_transverse_pressure_angle() - allowances / pinion_.cosine_of_helix_angle());
    }
    /// Normal backlash, j_bn = j_t cos alpha_t cos beta_b = j_t cos alpha_n cos beta.
    constexpr T normal_backlash() const {
        return T(circumferential_backlash() * cos(pinion_.normal_pressure_angle()) * pinion_.cosine_of_helix_angle());
    }
    /// Radial backlash, j_r = j_t / (2 tan alpha_t): how far the pinion can be lowered until both flanks touch. Exact here.
    constexpr T radial_backlash() const {
        return T(circumferential_backlash() / (T(2) * pinion_.tangent_of_transverse_pressure_angle()));
    }
    /// Angular backlash of the pinion, phi_j = 2 j_t / d: how far it can be turned while the rack stands.
    constexpr angle<T> angular_backlash() const { return rad(T(T(2) * circumferential_backlash() / pinion_.reference_diameter())); }

    /// The pinion's root.
    constexpr const generated_root<T>& pinion_root() const { return root_; }

private:
    static constexpr T fitting_height(const gear<T>& pinion, const rack_parameters<T>& rack) {
        return T(pinion.shifted_reference_diameter() / T(2) + rack.datum_height);
    }
    static constexpr basic_rack<T> with_angle(basic_rack<T> profile, const angle<T>& pressure_angle) {
        profile.pressure_angle = pressure_angle;
        return profile;
    }

    /// Roll length of the pinion where its flank touches the rack's at a height over the datum line: the point lies on the line of action,
    /// H - height from the axis, measured square to the rack: r sin alpha_t - (r - H + height) / sin alpha_t.
    constexpr T roll_at_height(const T& height) const {
        const T r = pinion_.reference_diameter() / T(2);
        const T sine = pinion_.tangent_of_transverse_pressure_angle() * pinion_.cosine_of_transverse_pressure_angle();
        return T(r * sine - (r - distance_to_datum_line() + height) / sine);
    }

    gear<T> pinion_;
    rack_parameters<T> rack_;
    generated_root<T> root_;
    T height_;
};

} // namespace rackwork

#endif
