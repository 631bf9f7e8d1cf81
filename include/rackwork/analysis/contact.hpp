// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The path of contact of a pair: where it begins and ends, and how many pairs of teeth touch along it.
#ifndef RACKWORK_ANALYSIS_CONTACT_HPP
#define RACKWORK_ANALYSIS_CONTACT_HPP

#include "../centre_distance.hpp"
#include "../core/elementary.hpp"
#include "../core/error.hpp"
#include "../core/scalar.hpp"
#include "../mesh.hpp"
#include "../rack_mesh.hpp"
#include "contact_point.hpp"

namespace rackwork {

/// A part of the path of contact along which the same number of pairs of teeth touch. Places are distances from the pitch point.
template <scalar T>
struct contact_zone {
    T begin;
    T end;
    int pairs;
};

/// The path of contact of two gears, or of a pinion and a rack, in the transverse section, with the points that the trade calls A to E. Immutable; usable in
/// constant expressions. Formulas: ISO 21771:2007.
///
/// It is the path on which flanks really touch: it ends where a tip ends, and already where the mate's involute does (undercut,
/// or a root form circle that the mate's tip reaches below), exactly as mesh has it. The pinion is taken as the driver: contact
/// runs from A, near the pinion's root, to E, at its tip; with a driving wheel it is the same path the other way.
/// Accuracy for double: 8 ulp of the distance between the points where the line of action touches the base circles, and at the
/// ends of the path as much as 8 ulp of the diameter d that ends it are worth there: d/(4 rho) of them, rho its radius of
/// curvature.
template <scalar T = double>
class path_of_contact {
public:
    /// Throws geometry_error when the flanks do not reach each other (or more than a million pairs of them at once).
    constexpr explicit path_of_contact(const mesh<T>& pair) : path_of_contact(pair, not_yet_checked{}) {
        require(check_length());
    }

    constexpr explicit path_of_contact(const rack_mesh<T>& pair) : path_of_contact(pair, not_yet_checked{}) {
        require(check_length());
    }

    /// What keeps a pair from having a path of contact, or nothing: the question for callers who cannot have exceptions.
    static constexpr violation check(const mesh<T>& pair) {
        return path_of_contact(pair, not_yet_checked{}).check_length();
    }
    static constexpr violation check(const rack_mesh<T>& pair) {
        return path_of_contact(pair, not_yet_checked{}).check_length();
    }

    /// The point at a distance from the pitch point, positive towards E. Also beyond the ends of the path: what would be there
    /// if the flanks reached so far. Throws geometry_error unless the distance is finite.
    constexpr contact_point<T> at(const T& distance_from_pitch_point) const {
        return {line_, distance_from_pitch_point};
    }
    /// The point at which a diameter of the pinion or of the wheel comes into contact. Throws geometry_error below its base
    /// diameter.
    constexpr contact_point<T> at_pinion_diameter(const T& diameter) const {
        return at(T(roll(line_.base_radius, diameter) - line_.pitch_point_radius));
    }
    constexpr contact_point<T> at_wheel_diameter(const T& diameter) const {
        if (line_.inverse_ratio == T(0)) impossible_geometry({"inverse of the gear ratio", 0, "must not be zero, as a rack's is", 0, false});
        // rho_2 = rho_C2 - g on an external wheel, rho_C2 + g on an internal one, whose 1/u is negative.
        const T of_wheel = roll(magnitude(T(line_.base_radius / line_.inverse_ratio)), diameter);
        return at(T(line_.pitch_point_radius / line_.inverse_ratio - (line_.inverse_ratio < T(0) ? T(-of_wheel) : of_wheel)));
    }

    /// A: contact begins, at the pinion's active root diameter and the wheel's active tip diameter.
    constexpr contact_point<T> point_a() const { return at(begin_); }
    /// B: one base pitch before E. The pair before leaves contact; for contact ratios between 1 and 2 contact of a single pair
    /// begins.
    constexpr contact_point<T> point_b() const { return at(T(end_ - base_pitch_)); }
    /// C: the pitch point, where the working pitch circles roll. It lies outside A to E for some shifts.
    constexpr contact_point<T> point_c() const { return at(T(0)); }
    /// D: one base pitch after A. The pair behind comes into contact; for contact ratios between 1 and 2 contact of a single pair
    /// ends. The pinion's outer, the wheel's inner point of single contact.
    constexpr contact_point<T> point_d() const { return at(T(begin_ + base_pitch_)); }
    /// E: contact ends, at the pinion's active tip diameter and the wheel's active root diameter.
    constexpr contact_point<T> point_e() const { return at(end_); }

    /// Length of the path, g_alpha, from A to E.
    constexpr T length() const { return T(end_ - begin_); }
    /// Length of approach, g_f: the part of the path before the pitch point, pinion driving. 0 if there is none.
    constexpr T length_of_approach() const { return smaller(larger(T(-begin_), T(0)), length()); }
    /// Length of recess, g_a: the part of the path after the pitch point, pinion driving. 0 if there is none.
    constexpr T length_of_recess() const { return smaller(larger(end_, T(0)), length()); }
    /// Distance of neighbouring points of contact, the transverse base pitch p_et.
    constexpr const T& base_pitch() const { return base_pitch_; }
    /// Transverse contact ratio, epsilon_alpha = g_alpha / p_et.
    constexpr T transverse_contact_ratio() const { return T(length() / base_pitch_); }

    /// How many pairs of teeth touch while one of them touches at a distance from the pitch point; 0 outside the path. At the
    /// instant at which one pair comes or goes it counts.
    constexpr int pairs_in_contact(const T& distance_from_pitch_point) const {
        if (distance_from_pitch_point < begin_ || end_ < distance_from_pitch_point) return 0;
        return 1 + whole_part(T((end_ - distance_from_pitch_point) / base_pitch_)) +
               whole_part(T((distance_from_pitch_point - begin_) / base_pitch_));
    }
    /// Number of zones into which the path falls: 3 for contact ratios from 1 to 2 (two pairs, one pair, two pairs), 2 more for
    /// each whole number beyond; 1 below 1.
    constexpr int zones() const { return 2 * whole_part(transverse_contact_ratio()) + 1; }
    /// A zone, counted from A. With n the whole part of the contact ratio, n + 1 pairs touch in zones 0, 2, 4 ..., n in the
    /// others.
    /// Throws geometry_error unless the index is in [0, zones()).
    constexpr contact_zone<T> zone(int index) const {
        const int whole = whole_part(transverse_contact_ratio());
        require(first_of(check_at_least("index of the zone", T(index), T(0)),
                         check_less("index of the zone", T(index), T(zones()))));
        const T opens = T(index / 2) * base_pitch_;          // a pair comes in behind
        const T closes = T(whole - index / 2) * base_pitch_; // the pair in front goes out
        if (index % 2 == 0) return {.begin = T(begin_ + opens), .end = T(end_ - closes), .pairs = whole + 1};
        return {.begin = T(end_ - closes), .end = T(begin_ + opens + base_pitch_), .pairs = whole};
    }

    /// The line of action on which the path lies.
    constexpr const line_of_action<T>& line() const { return line_; }

private:
    struct not_yet_checked {};

    template <class Pair>
    constexpr path_of_contact(const Pair& pair, not_yet_checked)
        : line_(line_of_action<T>::of(pair)), base_pitch_(pair.pinion().transverse_base_pitch()) {
        begin_ = pair.pinion_roll_at_start_of_contact() - line_.pitch_point_radius;
        end_ = pair.pinion_roll_at_end_of_contact() - line_.pitch_point_radius;
    }

    constexpr violation check_length() const {
        return first_of(check_greater("length of the path of contact", length(), T(0)),
                        check_at_most("transverse_contact_ratio", transverse_contact_ratio(), T(greatest_pairs)));
    }
    /// Radius of curvature of an involute at a diameter.
    static constexpr T roll(const T& base_radius, const T& diameter) {
        const T base = T(2) * base_radius;
        require(check_at_least("diameter", diameter, base));
        return T(elementary::sqrt(T((diameter - base) * (diameter + base))) / T(2));
    }

    /// Counting more pairs of teeth than this makes no sense; whole_part needs a limit.
    static constexpr int greatest_pairs = 1 << 20;

    line_of_action<T> line_;
    T base_pitch_;
    T begin_{0};
    T end_{0};
};

} // namespace rackwork

#endif
