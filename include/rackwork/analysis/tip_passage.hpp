// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// How the edge of the mate's tip passes along a gear's tooth: past its fillet and, in an internal pair, past its tip.
#ifndef RACKWORK_ANALYSIS_TIP_PASSAGE_HPP
#define RACKWORK_ANALYSIS_TIP_PASSAGE_HPP

#include "../core/elementary.hpp"
#include "../core/point.hpp"
#include "../core/root_finding.hpp"
#include "../core/scalar.hpp"
#include "../gear.hpp"
#include "../generated_root.hpp"
#include "../involute.hpp"
#include "../mesh.hpp"

#include <cstddef>
#include <vector>

namespace rackwork {

/// How near an edge of the mate's tip comes to a side of a gear's tooth while it passes.
template <scalar T>
struct tip_passage {
    /// True if the edge comes as near to the gear's root as this part of the tooth at all.
    bool reaches = false;
    /// Least distance, square to the tooth's outline, to first order in the distance. Negative: that deep the edge would go into the metal.
    T clearance{0};
    /// Diameter of the gear at which that happens.
    T diameter{0};
};

namespace detail {

/// One gear of a pair as the place of passage, and its mate as the passing one, in the transverse section.
///
/// With the gear's axis at the origin, the mate's axis is at (c, 0), and an edge of the mate's tip, at the radius R and the angle lambda
/// from the middle of its tooth, stands at (c + s R cos tau, s' R sin tau) when the mate has turned by tau - lambda from the position
/// in which that tooth points along the line of centres into the middle of a space:
///   external pair: c = a, s = -1;   pinion's tip in the ring: c = a, s = 1;   ring's tip at the pinion: c = -a, s = 1,
/// the angles counted so that the point is on the side of positive y for positive tau. The gear has turned by (tau - lambda) u, with u the
/// mate's tooth number over its own, so that in the gear the edge's polar angle from the middle of the space is
///   eta - (tau - lambda) u,  tan(eta/2) = R sin tau / (r + c + s R cos tau).
/// The edge is at a radius r of the gear where cos tau = (r^2 - c^2 - R^2)/(2 c s R): once coming in and once going out.
template <scalar T>
class passing_tip {
public:
    passing_tip(const mesh<T>& pair, bool at_wheel)
        : gear_(at_wheel ? pair.wheel() : pair.pinion()), mate_(at_wheel ? pair.pinion() : pair.wheel()),
          root_(at_wheel ? pair.wheel_root() : pair.pinion_root()), side_(pair.is_internal() ? T(1) : T(-1)),
          axis_(pair.is_internal() && !at_wheel ? T(-pair.centre_distance()) : pair.centre_distance()),
          ratio_(T(mate_.teeth()) / T(gear_.teeth())) {
        const for_both<T> working = pair.working_diameter();
        // Contact on this side closes the half of the backlash that is on it.
        closed_ = pair.circumferential_backlash() / (at_wheel ? working.wheel : working.pinion);
        collect_edges();
    }

    /// A point of the side of a tooth: half the space's angle there, and the share of the outline's direction that is radial.
    struct place {
        T radius;
        T space_half_angle;
        T steepness;
    };

    const gear<T>& passed_gear() const { return gear_; }
    const generated_root<T>& passed_root() const { return root_; }

    /// The smallest of the clearances of all edges at a point of the tooth's side, coming in and going out.
    void look_at(tip_passage<T>& worst, const place& at) const {
        for (const edge& e : edges_) {
            const T R = e.radius;
            T c = (square(at.radius) - square(axis_) - square(R)) / (T(2) * axis_ * side_ * R);
            if (!(c > T(-1)) || !(c < T(1) + T(1 << 8) * epsilon<T>())) continue;
            c = smaller(c, T(1));
            const T s = elementary::sqrt(T((T(1) - c) * (T(1) + c)));
            const T tau = T(2) * elementary::atan(T(elementary::sqrt(T((T(1) - c) / (T(1) + c)))));
            const T eta = T(2) * elementary::atan(T(R * s / (at.radius + (axis_ + side_ * R * c)))); // up to 180 degrees
            const T from_middle = eta - tau * ratio_;                                                // coming in with the other sign
            for (const T& turned : {from_middle, T(-from_middle)}) {
                const T gap = at.space_half_angle - (turned + e.angle * ratio_) - closed_;
                const T clearance = gap * at.radius * at.steepness;
                if (worst.reaches && !(clearance < worst.clearance)) continue;
                worst = {.reaches = true, .clearance = clearance, .diameter = T(T(2) * at.radius)};
            }
        }
    }

    void look_at_fillet(tip_passage<T>& worst, const T& phi) const { look_at(worst, on_fillet(phi)); }
    void look_at_flank(tip_passage<T>& worst, const T& roll) const { look_at(worst, on_flank(roll)); }

    // Where each edge comes nearest to the gear's root, on the line of centres. Next to that place the clearance changes with the root of the
    // way along the tooth, so that even steps along it could miss a dip there.
    std::vector<T> deepest_in_fillet() const {
        std::vector<T> places;
        for (const edge& e : edges_) {
            const auto beyond = [&](const T& phi) { return T(on_fillet(phi).radius - deepest_radius(e)); };
            const T end = root_.end_parameter();
            if ((beyond(T(0)) < T(0)) != (beyond(end) < T(0))) places.push_back(bracketed_root(beyond, T(0), end));
        }
        return places;
    }
    std::vector<T> deepest_on_flank() const {
        std::vector<T> places;
        const T base = gear_.base_diameter() / T(2);
        for (const edge& e : edges_) {
            const T radius = deepest_radius(e);
            if (radius < base) continue;
            const T roll = elementary::sqrt(T((radius - base) * (radius + base))) / base;
            const bool after_form = gear_.kind_sign() * (roll - root_.root_form_roll()) >= T(0);
            const bool before_tip = gear_.kind_sign() * (gear_.tip_form_roll() - roll) >= T(0);
            if (after_form && before_tip) places.push_back(roll);
        }
        return places;
    }

private:
    struct edge {
        T radius;
        T angle;
    };

    place on_fillet(const T& phi) const {
        const fillet_state<T> at = root_.fillet().at(phi);
        const T radius = elementary::sqrt(at.squared_radius());
        const T radial = (at.radial * at.cos_pressure + at.lateral * at.sin_pressure) / radius;
        return {radius, at.polar_angle(), magnitude(radial)};
    }
    place on_flank(const T& roll) const {
        const T secant = elementary::sqrt(T(T(1) + square(roll)));
        const T tooth = gear_.base_half_angle() - gear_.kind_sign() * inv_from_tangent(roll);
        return {T(gear_.base_diameter() / T(2) * secant), T(pi<T>() / T(gear_.teeth()) - tooth), T(T(1) / secant)};
    }
    T deepest_radius(const edge& e) const { return magnitude(T(axis_ + side_ * e.radius)); }

    /// The edges of the mate's tip: where its tip land ends, where its flank does, and points of a rounding in between.
    void collect_edges() {
        edges_.reserve(rounding_points + 1);
        const auto add = [&](const T& radius, const T& angle) { edges_.push_back({radius, angle}); };
        const T tip = mate_.effective_tip_diameter() / T(2);
        const T land = larger(mate_.tip_land_half_angle(), T(0));
        add(tip, land);
        if (mate_.parameters().tip_chamfer > T(0)) {
            const T form = mate_.tip_form_diameter();
            add(T(form / T(2)), mate_.tooth_half_angle(form));
        } else if (mate_.parameters().tip_rounding > T(0)) {
            const T rho = mate_.parameters().tip_rounding;
            const T sign = mate_.kind_sign();
            const point<T> centre{T(tip - sign * rho), T(0)};
            // From the tip circle's normal to the flank's.
            const T whole = pi<T>() / T(2) - sign * mate_.tip_form_roll() + mate_.base_half_angle() - land;
            for (int i = 1; i <= rounding_points; ++i) {
                const T turn = whole * T(i) / T(rounding_points);
                const point<T> p = centre + T(sign * rho) * direction(turn);
                add(length(p), T(land + elementary::atan(T(p.y / p.x))));
            }
        }
    }

    static constexpr int rounding_points = 8;

    gear<T> gear_;
    gear<T> mate_;
    generated_root<T> root_;
    T side_;
    T axis_;
    T ratio_;
    T closed_{0};
    std::vector<edge> edges_;
};

/// The least clearance over a range of a parameter: even steps first, then ever smaller steps about each of them that has less than its
/// neighbours, and about places where more is to be looked at.
template <scalar T, class Look>
tip_passage<T> least_clearance(const Look& look, const T& from, const T& to, const std::vector<T>& places) {
    constexpr int steps = 96;
    const auto at = [&](int i) { return i == steps ? to : T(from + (to - from) * (T(i) / T(steps))); };
    const auto seen_at = [&](const T& t) {
        tip_passage<T> here;
        look(here, t);
        return here;
    };
    std::vector<tip_passage<T>> even;
    even.reserve(steps + 1);
    for (int i = 0; i <= steps; ++i) even.push_back(seen_at(at(i)));

    tip_passage<T> worst;
    const auto is_less = [](const tip_passage<T>& a, const tip_passage<T>& b) {
        return a.reaches && (!b.reaches || a.clearance < b.clearance);
    };
    const T lower = smaller(from, to);
    const T upper = larger(from, to);
    const auto search_about = [&](T place, tip_passage<T> least) {
        T step = (to - from) / T(steps);
        for (int halving = 0; halving < 40; ++halving) {
            step = step / T(2);
            const T middle = place;
            for (const T& t : {T(middle - step), T(middle + step)}) {
                const T within = smaller(larger(t, lower), upper);
                const tip_passage<T> here = seen_at(within);
                if (!is_less(here, least)) continue;
                least = here;
                place = within;
            }
        }
        if (is_less(least, worst)) worst = least;
    };
    for (int i = 0; i <= steps; ++i) {
        const tip_passage<T>& here = even[static_cast<std::size_t>(i)];
        if (is_less(here, worst)) worst = here;
        if (!here.reaches) continue;
        // By how much a neighbour has more. Where the tip rolls along the flank it is nothing but rounding.
        const auto rise = [&](int k) {
            if (k < 0 || k > steps) return here.diameter;
            const tip_passage<T>& other = even[static_cast<std::size_t>(k)];
            return other.reaches ? T(other.clearance - here.clearance) : here.diameter;
        };
        const T before = rise(i - 1);
        const T after = rise(i + 1);
        const bool dips = !(before < T(0)) && !(after < T(0)) && larger(before, after) > T(1 << 10) * epsilon<T>() * here.diameter;
        if (dips) search_about(at(i), here);
    }
    for (const T& place : places) search_about(place, seen_at(place));
    return worst;
}

template <scalar T>
tip_passage<T> passage_at_fillet(const mesh<T>& pair, bool at_wheel) {
    const passing_tip<T> tip(pair, at_wheel);
    return least_clearance<T>([&](tip_passage<T>& w, const T& phi) { tip.look_at_fillet(w, phi); }, T(0), tip.passed_root().end_parameter(),
                              tip.deepest_in_fillet());
}

template <scalar T>
tip_passage<T> passage_at_flank(const mesh<T>& pair, bool at_wheel) {
    const passing_tip<T> tip(pair, at_wheel);
    return least_clearance<T>([&](tip_passage<T>& w, const T& roll) { tip.look_at_flank(w, roll); }, tip.passed_root().root_form_roll(),
                              tip.passed_gear().tip_form_roll(), tip.deepest_on_flank());
}

} // namespace detail

/// How near the mate's tip comes to the root fillet, over the whole passage; one flank in contact, the backlash on the other side.
/// Negative clearance is true cutting of the fillet, whatever the form diameters say; a tip may also reach below the form diameter of an
/// undercut root and touch nothing. The clearance is found by search: 97 even steps, then
/// ever smaller ones about each that has less than its neighbours and about the places where the tip's edges are on the line of centres. A
/// dip elsewhere between two steps that neither of them shows would be missed.
template <scalar T>
for_both<tip_passage<T>> passage_at_fillets(const mesh<T>& pair) {
    return {.pinion = detail::passage_at_fillet(pair, false), .wheel = detail::passage_at_fillet(pair, true)};
}

/// How near the mate's tip comes to the flank above the root form diameter. In a proper pair it touches there and nothing more: 0 but for
/// rounding. Negative clearance in an internal pair is tip interference (trochoidal interference): outside the path of contact the
/// tips run into each other.
template <scalar T>
for_both<tip_passage<T>> passage_at_flanks(const mesh<T>& pair) {
    return {.pinion = detail::passage_at_flank(pair, false), .wheel = detail::passage_at_flank(pair, true)};
}

} // namespace rackwork

#endif
