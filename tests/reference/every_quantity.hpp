// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Every quantity that the library gives for two gears, by name, in any scalar: what its values and derivatives are compared by.
#pragma once

#include "pair_inputs.hpp"

#include <string>
#include <type_traits>
#include <utility>
#include <vector>

#include <rackwork/analysis/contact.hpp>
#include <rackwork/analysis/contact_lines.hpp>
#include <rackwork/analysis/lewis_form_factor.hpp>
#include <rackwork/analysis/normal_section.hpp>
#include <rackwork/analysis/pair_factors.hpp>
#include <rackwork/analysis/tooth_root.hpp>
#include <rackwork/analysis/tooth_root_iso_6336.hpp>
#include <rackwork/form/outline.hpp>
#include <rackwork/form/section.hpp>
#include <rackwork/measure/chord.hpp>
#include <rackwork/measure/pins.hpp>
#include <rackwork/measure/span.hpp>
#include <rackwork/undercut_limits.hpp>

namespace reference {

/// Which quantities are wanted: all, or those that have no definition beside the library's, for samples so large that time counts.
enum class wanted { everything, without_own_definition };

/// External gears' roots and measures and external meshes are compared with independently written definitions.
inline bool has_its_own_definition(const std::string& name) {
    for (const char* subject :
         {"root: ", "span: ", "chord: ", "constant chord: ", "pins: ", "mesh: ", "mesh, nominal: ", "at a diameter: ", "least "}) {
        if (name.rfind(subject, 0) == 0) return true;
    }
    return false;
}

/// A quantity's name, its value, and the size beside which it is small (0: none, its own counts).
template <class T>
struct quantity {
    std::string name;
    T value;
    T size;
};

template <class T>
class quantities {
public:
    explicit quantities(wanted which = wanted::everything) : which_(which) {}

    void add(const char* name, const T& value, const T& size = T(0)) { all_.push_back({prefix_ + name, value, size}); }

    /// Adds what `list` adds, named after its subject; nothing at all where the library refuses one of them.
    template <class List>
    void group(const std::string& subject, const List& list) {
        const std::size_t before = all_.size();
        if (which_ == wanted::without_own_definition && has_its_own_definition(prefix_ + subject)) return;
        const std::string outer = std::exchange(prefix_, prefix_ + subject);
        try {
            list();
        } catch (const rackwork::geometry_error&) {
            all_.erase(all_.begin() + static_cast<std::ptrdiff_t>(before), all_.end());
        }
        prefix_ = outer;
    }
    const std::vector<quantity<T>>& all() const { return all_; }

private:
    wanted which_;
    std::vector<quantity<T>> all_;
    std::string prefix_;
};

template <class T>
void add_gear(quantities<T>& q, const rackwork::gear<T>& g) {
    const T d = g.reference_diameter();
    const T m = g.normal_module();
    q.add("generating profile shift", g.generating_profile_shift(), T(1));
    q.add("transverse module", g.transverse_module());
    q.add("transverse pressure angle", g.transverse_pressure_angle().rad());
    q.add("base helix angle", g.base_helix_angle().rad(), T(1));
    q.add("reference diameter", d);
    q.add("base diameter", g.base_diameter());
    q.add("tip diameter", g.tip_diameter());
    q.add("tip form diameter", g.tip_form_diameter());
    q.add("effective tip diameter", g.effective_tip_diameter());
    q.add("root diameter", g.root_diameter(), d);
    q.add("generated root diameter", g.generated_root_diameter(), d);
    q.add("shifted reference diameter", g.shifted_reference_diameter(), d);
    q.add("addendum", g.addendum(), m);
    q.add("dedendum", g.dedendum(), m);
    q.add("tooth depth", g.tooth_depth(), m);
    q.add("normal pitch", g.normal_pitch());
    q.add("transverse pitch", g.transverse_pitch());
    q.add("normal base pitch", g.normal_base_pitch());
    q.add("transverse base pitch", g.transverse_base_pitch());
    q.add("normal tooth thickness", g.normal_tooth_thickness(), m);
    q.add("transverse tooth thickness", g.transverse_tooth_thickness(), m);
    q.add("tip thickness", g.tip_thickness(), d);
    q.add("tip land", T(g.tip_land_half_angle() * d), d);
    q.add("half angle at the base circle", T(g.base_half_angle() * d), d);
    if (g.helix_angle().rad() != T(0)) {
        q.add("axial pitch", g.axial_pitch());
        q.add("lead", g.lead());
    }
    if (g.parameters().tip_chamfer > T(0)) {
        q.add("base diameter of the chamfer", g.chamfer_base_diameter());
        q.add("half angle at the chamfer's base circle", T(g.chamfer_base_half_angle() * d), d);
    }
    q.group("", [&] { q.add("pointed tip diameter", g.pointed_tip_diameter()); });
}

template <class T>
void add_root(quantities<T>& q, const rackwork::generated_root<T>& root, const T& m) {
    const T d = root.root_form_diameter();
    q.add("root form diameter", d);
    q.add("roll angle at the root form diameter", root.root_form_roll());
    q.add("root diameter as generated", root.root_diameter(), d);
    q.add("half angle of the root land", T(root.root_land_half_angle() * d), d);
    q.add("end of the fillet", root.end_parameter(), T(1));
    const auto middle = root.fillet().at(T(root.end_parameter() / T(2)));
    q.add("fillet: along the space", middle.position().x, d);
    q.add("fillet: across the space", middle.position().y, d);
    q.add("fillet: direction", middle.tangent().y, T(1));
    if (root.end_parameter() != T(0)) q.add("fillet: curvature times module", T(middle.curvature() * m), T(1));
}

template <class T>
void add_flank(quantities<T>& q, const rackwork::gear<T>& g, const T& diameter) {
    q.add("pressure angle", g.pressure_angle(diameter).rad());
    q.add("helix angle", g.helix_angle(diameter).rad(), T(1));
    q.add("tooth thickness", g.tooth_thickness(diameter), diameter);
    q.add("half angle of the tooth", T(g.tooth_half_angle(diameter) * diameter), diameter);
    q.add("normal tooth thickness", g.normal_tooth_thickness(diameter), diameter);
    q.add("space width", g.space_width(diameter), diameter);
}

template <class T>
void add_measures(quantities<T>& q, const rackwork::gear<T>& g, const T& diameter) {
    const T d = g.reference_diameter();
    const T m = g.normal_module();
    q.group("span: ", [&] {
        const int k = rackwork::recommended_teeth_spanned(g);
        q.add("length", rackwork::span_measurement(g, k));
        q.add("diameter of contact", rackwork::span_contact_diameter(g, k));
        if (g.helix_angle().rad() != T(0)) q.add("face width", rackwork::span_face_width(g, k));
        q.add("thickness from it", rackwork::normal_tooth_thickness_from_span(g, k, T(T(k) * T(3) * m)), d);
    });
    q.group("chord: ", [&] {
        const auto chord = rackwork::chord_at(g, diameter);
        q.add("thickness", chord.thickness, d);
        q.add("height", chord.height, d);
        const T measured = T(chord.thickness * T(0.99));
        q.add("thickness from it", rackwork::normal_tooth_thickness_from_chord(g, diameter, measured), d);
    });
    q.group("constant chord: ", [&] {
        const auto chord = rackwork::constant_chord(g);
        q.add("thickness", chord.thickness, m);
        q.add("height", chord.height, d);
        q.add("diameter", rackwork::constant_chord_diameter(g));
        q.add("thickness from it", rackwork::normal_tooth_thickness_from_constant_chord(g, T(chord.thickness * T(0.99))), d);
    });
    q.group("pins: ", [&] {
        q.add("touching at a diameter", rackwork::pin_diameter_touching_at(g, diameter), d);
        q.add("ideal", rackwork::ideal_pin_diameter(g), d);
    });
    q.group("pins: ", [&] {
        const T pin = T(m * T(1.75));
        const auto position = rackwork::position_of_pin(g, pin);
        q.add("diameter of centres", position.centre_diameter);
        q.add("diameter of contact", position.contact_diameter);
        q.add("dimension over balls", rackwork::dimension_over_balls(g, pin));
        const T reading = T(rackwork::dimension_over_balls(g, pin) * T(0.9995));
        q.add("thickness from balls", rackwork::normal_tooth_thickness_from_balls(g, pin, reading), d);
        q.group("", [&] {
            q.add("dimension over pins", rackwork::dimension_over_pins(g, pin));
            const T over = T(rackwork::dimension_over_pins(g, pin) * T(0.9995));
            q.add("thickness from pins", rackwork::normal_tooth_thickness_from_pins(g, pin, over), d);
        });
    });
}

/// The scalars in which nothing is examined.
template <class T>
inline constexpr bool is_compared_with = std::is_same_v<T, real> || std::is_same_v<T, long double>;

template <class T>
void add_form(quantities<T>& q, const rackwork::gear<T>& g) {
    // The flanks' angles are small differences where the teeth are many and steep.
    const T tangent = g.tangent_of_transverse_pressure_angle();
    const T steep = T(T(1) + T(g.teeth()) * tangent * tangent / T(32));
    // A ring's is what its rim leaves of the disc round it.
    const T rim = T(g.reference_diameter() + T(8) * g.normal_module());
    const auto disc = rackwork::disc_section(g.is_internal() ? rim : T(0));
    rackwork::section_properties<T> section;
    q.group("section: ", [&] {
        section = g.is_internal() ? rackwork::ring_section(g, rim) : rackwork::transverse_section(g);
        q.add("area", section.area, T((section.area + disc.area) * steep));
        q.add("polar moment", section.polar_moment, T((section.polar_moment + disc.polar_moment) * steep));
    });
    if (g.teeth() <= 12) q.group("outline: ", [&] { q.add("area", rackwork::outline_of(g).area()); });
    q.group("body: ", [&] {
        const T width = g.parameters().face_width;
        // What others are compared with has the section already, whose integrals take long in fifty digits.
        const auto body = is_compared_with<T> ? rackwork::prism_of(section, width)
                          : g.is_internal()   ? rackwork::ring_body_of(g, rim)
                                              : rackwork::body_of(g);
        const auto full = rackwork::prism_of(disc, width);
        q.add("volume", body.volume, T((body.volume + full.volume) * steep));
        q.add("moment about the axis", body.moment_about_axis, T((body.moment_about_axis + full.moment_about_axis) * steep));
        q.add("moment across the axis", body.moment_across_axis, T((body.moment_across_axis + full.moment_across_axis) * steep));
    });
}

template <class T>
void add_tooth_root(quantities<T>& q, const rackwork::tooth_root<T>& root, const T& d) {
    q.add("chord", root.chord, d);
    q.add("fillet radius", root.fillet_radius, root.normal_module);
    q.add("arm", root.arm, d);
    q.add("load angle", root.load_angle.rad(), T(1));
    // The lengths are good to their places of the diameter.
    const T uncertain = T(d / root.chord + d / root.arm + d / root.fillet_radius);
    q.add("form factor", root.form_factor(), T(root.form_factor() * uncertain));
    q.add("stress correction factor", root.stress_correction_factor(), T(root.stress_correction_factor() * uncertain));
}

template <class T>
void add_strength_form(quantities<T>& q, const rackwork::gear<T>& g) {
    const T d = g.reference_diameter();
    q.group("tooth root: ", [&] { add_tooth_root(q, rackwork::root_under_tip_load(g), d); });
    q.group("tooth root of the standard: ", [&] { add_tooth_root(q, rackwork::iso_6336_root_under_tip_load(g), d); });
    q.group("tooth root in the normal section: ",
            [&] { add_tooth_root(q, rackwork::root_in_normal_section(g, g.effective_tip_diameter()), d); });
    q.group("Lewis: ", [&] {
        const auto lewis = rackwork::lewis_section_under_tip_load(g);
        q.add("chord", lewis.chord, d);
        q.add("arm", lewis.arm, d);
        q.add("form factor", lewis.form_factor(), T(lewis.form_factor() * T(d / lewis.chord + d / lewis.arm)));
    });
}

template <class T>
void add_limits(quantities<T>& q, const rackwork::gear<T>& g) {
    const auto& p = g.parameters();
    q.add("least shift without undercut", rackwork::least_profile_shift_without_undercut(p.rack, p.teeth, p.helix_angle), T(p.teeth));
    q.add("least teeth without undercut", rackwork::least_teeth_without_undercut(p.rack, p.profile_shift, p.helix_angle), T(p.teeth));
}

/// What errors along the line of action grow from: the distance of its feet and the places of the tips on it are roots of differences of
/// squares, and the more uncertain the nearer a circle comes to its base circle.
template <class T>
T size_along_the_line(const rackwork::mesh<T>& m) {
    const auto place = [](const rackwork::gear<T>& g) {
        const T unwound = T(g.base_diameter() / T(2) * g.tip_form_roll());
        const T r = T(g.tip_form_diameter() / T(2));
        return T(unwound + r * r / unwound);
    };
    const T feet = m.path_between_base_circles();
    const T flat = T(m.centre_distance() * m.centre_distance() / feet);
    return T(feet + flat + place(m.pinion()) + place(m.wheel()) + m.pinion().base_diameter() + m.wheel().base_diameter());
}

template <class T>
void add_mesh(quantities<T>& q, const rackwork::mesh<T>& m) {
    const T a = T(m.centre_distance() + m.wheel().reference_diameter());
    const T line = size_along_the_line(m);
    const T pitch = m.pinion().transverse_base_pitch();
    q.add("centre distance", m.centre_distance(), a);
    q.add("reference centre distance", m.reference_centre_distance(), a);
    q.add("working pressure angle", m.working_pressure_angle().rad());
    q.add("working diameter of the pinion", m.working_diameter().pinion);
    q.add("working diameter of the wheel", m.working_diameter().wheel);
    q.add("active tip diameter of the pinion", m.active_tip_diameter().pinion, T(a + line));
    q.add("active tip diameter of the wheel", m.active_tip_diameter().wheel, T(a + line));
    q.add("active root diameter of the pinion", m.active_root_diameter().pinion, T(a + line));
    q.add("active root diameter of the wheel", m.active_root_diameter().wheel, T(a + line));
    q.add("distance between the feet on the base circles", m.path_between_base_circles(), line);
    q.add("reach of the wheel's tip", m.reach_of_mating_tip().pinion, line);
    q.add("reach of the pinion's tip", m.reach_of_mating_tip().wheel, line);
    q.add("length of the path of contact", m.length_of_path_of_contact(), line);
    q.add("transverse contact ratio", m.transverse_contact_ratio(), T(line / pitch));
    q.add("overlap ratio", m.overlap_contact_ratio());
    q.add("total contact ratio", m.total_contact_ratio(), T(line / pitch));
    q.add("bottom clearance at the pinion's tip", m.bottom_clearance().pinion, a);
    q.add("bottom clearance at the wheel's tip", m.bottom_clearance().wheel, a);
    q.add("circumferential backlash", m.circumferential_backlash(), a);
    q.add("normal backlash", m.normal_backlash(), a);
    q.add("radial backlash, first order", m.approximate_radial_backlash(), a);
    q.add("angular backlash of the pinion", m.angular_backlash().pinion.rad(), T(a / m.working_diameter().pinion));
    q.add("angular backlash of the wheel", m.angular_backlash().wheel.rad(), T(a / m.working_diameter().wheel));
    q.group("", [&] {
        q.add("double-flank centre distance", m.double_flank_centre_distance(), a);
        q.add("radial backlash", m.radial_backlash(), a);
    });
}

template <class T>
void add_contact_point(quantities<T>& q, const rackwork::contact_point<T>& p, const rackwork::mesh<T>& m) {
    const T line = size_along_the_line(m);
    q.add("distance from the pitch point", p.distance_from_pitch_point(), line);
    q.add("curvature radius of the pinion", p.curvature_radius().pinion, line);
    q.add("curvature radius of the wheel", p.curvature_radius().wheel, line);
    q.add("diameter on the pinion", p.diameter().pinion, line);
    q.add("diameter on the wheel", p.diameter().wheel, line);
    q.add("roll angle of the pinion", p.roll_angle().pinion.rad(), T(line / m.pinion().base_diameter()));
    q.add("rolling velocity of the pinion", p.rolling_velocity().pinion, line);
    q.add("sliding velocity", p.sliding_velocity(), line);
    q.add("sliding factor", p.sliding_factor(), T(line / m.pinion().base_diameter()));
    q.group("", [&] {
        const T bent = T(T(1) / p.curvature_radius().pinion);
        const T bent_mate = T(T(1) / p.curvature_radius().wheel);
        const T uncertain = T(line * rackwork::magnitude(bent) + line * rackwork::magnitude(bent_mate));
        q.add("relative curvature", p.relative_curvature(), T(line * (bent * bent + bent_mate * bent_mate)));
        const T of_pinion = p.specific_sliding().pinion;
        const T of_wheel = p.specific_sliding().wheel;
        q.add("specific sliding of the pinion", of_pinion, T((T(1) + rackwork::magnitude(of_pinion)) * uncertain));
        q.add("specific sliding of the wheel", of_wheel, T((T(1) + rackwork::magnitude(of_wheel)) * uncertain));
        q.add("slide to roll ratio", p.slide_roll_ratio(), T(T(2) * uncertain));
    });
}

template <class T>
void add_contact(quantities<T>& q, const rackwork::mesh<T>& m) {
    const T line = size_along_the_line(m);
    q.group("path of contact: ", [&] {
        const rackwork::path_of_contact<T> path(m);
        q.add("length", path.length(), line);
        q.add("approach", path.length_of_approach(), line);
        q.add("recess", path.length_of_recess(), line);
        q.group("A: ", [&] { add_contact_point(q, path.point_a(), m); });
        q.group("D: ", [&] { add_contact_point(q, path.point_d(), m); });
        q.group("E: ", [&] { add_contact_point(q, path.point_e(), m); });
    });
    // What is made of the contact ratio.
    const T uncertain = T(line / m.length_of_path_of_contact());
    q.group("contact lines: ", [&] {
        const rackwork::contact_lines<T> lines(m);
        const T greatest = lines.greatest_total_length();
        const T overlap = m.overlap_contact_ratio();
        const T divided = overlap > T(0) && overlap < T(1) ? T(T(1) + T(1) / overlap) : T(1);
        q.add("mean total length", lines.mean_total_length(), T(greatest * uncertain));
        q.add("least total length", lines.least_total_length(), T(greatest * uncertain * divided));
        q.add("greatest total length", greatest, T(greatest * uncertain * divided));
    });
    q.add("zone factor", rackwork::zone_factor(m));
    q.add("helix factor for the flank", rackwork::helix_factor_for_flank(m));
    q.add("helix factor for the root", rackwork::helix_factor_for_root(m));
    q.group("", [&] { q.add("contact ratio factor for the flank", rackwork::contact_ratio_factor_for_flank(m), uncertain); });
    q.group("", [&] { q.add("contact ratio factor for the root", rackwork::contact_ratio_factor_for_root(m), uncertain); });
}

/// All of it. The inputs are those of pair_inputs.hpp.
template <class T>
quantities<T> every_quantity(const pair_numbers<T>& x, const drawn_pair& drawn, wanted which = wanted::everything) {
    quantities<T> q(which);
    const rackwork::gear<T> pinion(pinion_parameters(x, drawn));
    const rackwork::gear<T> wheel(wheel_parameters(x, drawn));
    const rackwork::mesh<T> nominal(pinion, wheel);
    const rackwork::mesh<T> opened(pinion, wheel, x[14]);
    const bool internal = wheel.is_internal();
    const std::string of_wheel = internal ? "internal gear: " : "gear: ";
    q.group("gear: ", [&] { add_gear(q, pinion); });
    q.group(of_wheel, [&] { add_gear(q, wheel); });
    q.group("root: ", [&] { add_root(q, nominal.pinion_root(), x[0]); });
    q.group(internal ? "root of an internal gear: " : "root: ", [&] { add_root(q, nominal.wheel_root(), x[0]); });
    q.group("at a diameter: ", [&] { add_flank(q, pinion, x[17]); });
    q.group("", [&] { add_measures(q, pinion, x[17]); });
    q.group("", [&] { add_form(q, pinion); });
    q.group("", [&] { add_strength_form(q, pinion); });
    q.group("", [&] { add_limits(q, pinion); });
    if (internal) q.group("internal gear: ", [&] { add_form(q, wheel); });
    q.group(internal ? "internal mesh, nominal: " : "mesh, nominal: ", [&] { add_mesh(q, nominal); });
    q.group(internal ? "internal mesh: " : "mesh: ", [&] { add_mesh(q, opened); });
    q.group(internal ? "internal " : "", [&] { add_contact(q, opened); });
    return q;
}

} // namespace reference
