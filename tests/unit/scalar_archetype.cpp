// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Every template of the library with a scalar that can do what is documented and nothing else. That this file compiles is the test;
// at run time the numbers must be those of double, in a bounded number of operations.
#include "support_archetype.hpp"

#include "bad_input_sheets.hpp"
#include "random_source.hpp"
#include "scalar_notebook.hpp"

#include <rackwork/rackwork.hpp>

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <concepts>
#include <limits>
#include <string>
#include <type_traits>

using archetype::number;

// The archetype is as poor as it claims to be.
namespace {
template <class A, class B>
concept can_add = requires(A a, B b) { a + b; };
template <class A, class B>
concept can_compare = requires(A a, B b) { a < b; };
template <class A, class B>
concept can_equate = requires(A a, B b) { a == b; };
} // namespace
static_assert(rackwork::scalar<number>);
static_assert(!std::is_default_constructible_v<number> && !std::is_convertible_v<int, number> && !std::is_convertible_v<double, number>);
static_assert(!std::is_convertible_v<number, double> && !std::is_convertible_v<number, bool> && !std::is_constructible_v<int, const number*>);
static_assert(!std::is_constructible_v<number, float> && !std::is_constructible_v<number, long double> && !std::is_constructible_v<number, long>);
static_assert(!std::is_constructible_v<number, unsigned> && !std::is_constructible_v<number, bool>);
static_assert(!can_add<number, int> && !can_add<number, double> && !can_add<double, number> && can_add<number, number>);
static_assert(!can_compare<number, int> && !can_compare<double, number> && can_compare<number, number>);
static_assert(!can_equate<number, int> && !can_equate<double, number> && can_equate<number, number>);

// Whole class templates: every member is compiled, whether something below calls it or not.
template class rackwork::angle<number>;
template struct rackwork::point<number>;
template struct rackwork::basic_rack<number>;
template struct rackwork::gear_parameters<number>;
template class rackwork::gear<number>;
template struct rackwork::fillet_state<number>;
template struct rackwork::rack_trochoid<number>;
template struct rackwork::pinion_trochoid<number>;
template class rackwork::root_trochoid<number>;
template struct rackwork::rack_type_cutter<number>;
template struct rackwork::pinion_type_cutter<number>;
template class rackwork::generating_mesh<number>;
template class rackwork::generated_root<number>;
template struct rackwork::for_both<number>;
template struct rackwork::pair_proportions<number>;
template class rackwork::mesh<number>;
template class rackwork::rack_mesh<number>;
template struct rackwork::chord<number>;
template struct rackwork::pin_position<number>;
template struct rackwork::circle<number>;
template struct rackwork::involute<number>;
template struct rackwork::root_fillet<number, rackwork::rack_trochoid<number>>;
template struct rackwork::root_fillet<number, rackwork::pinion_trochoid<number>>;
template struct rackwork::segment<number>;
template class rackwork::tooth_form<number>;
template struct rackwork::outline<number>;
template struct rackwork::polyline<number>;
template struct rackwork::finding<number>;
template class rackwork::finding_list<number>;
template struct rackwork::finding_limits<number>;

namespace {

using scalar_support::named_values;
using scalar_support::notebook;

template <class T>
T at(double value) {
    return T(value);
}

template <class T>
rackwork::gear_parameters<T> parameters(int teeth, double helix, double shift) {
    rackwork::gear_parameters<T> p{.normal_module = at<T>(2.5), .teeth = teeth, .rack = rackwork::iso_53_c, .face_width = at<T>(30)};
    p.helix_angle = rackwork::deg(at<T>(helix));
    p.profile_shift = at<T>(shift);
    p.thickness_allowance = at<T>(-0.05);
    p.tip_alteration = at<T>(-0.02);
    return p;
}

/// Every function of the library once.
template <class T>
named_values everything(int teeth, double helix, double shift) {
    using namespace rackwork;
    notebook note;
    const gear<T> g{parameters<T>(teeth, helix, shift)};
    const gear<T> mate{parameters<T>(teeth + 14, -helix, 0.1)};

    // core, involute, basic rack
    note("arithmetic of angles", [&] {
        angle<T> a = deg(at<T>(20)) + rad(at<T>(0.1)) - deg(at<T>(1));
        a += a * at<T>(0.5);
        a -= at<T>(0.25) * a / at<T>(2);
        return a;
    });
    note("quotient of angles", [&] { return deg(at<T>(20)) / deg(at<T>(5)); });
    note("sin cos tan arctangent", [&] { return arctangent(T(sin(deg(at<T>(20))) * cos(deg(at<T>(10))) + tan(deg(at<T>(5))))); });
    note("order of angles", [&] {
        const angle<T> a = deg(at<T>(1));
        return at<T>(a < a || a > a || !(a <= a) || !(a >= a) || !(a == a) || a != a ? 1 : 0);
    });
    note("narrowing", [&] { return angle<float>(angle<double>(deg(20.0))).rad() > 0 ? at<T>(1) : at<T>(0); });
    note("points", [&] { return turned(mirrored(at<T>(2) * (direction(at<T>(0.4)) + point<T>{at<T>(1), at<T>(2)}) - point<T>{}), at<T>(0.3)); });
    note("vectors", [&] { return T(dot(direction(at<T>(1)), direction(at<T>(2))) + cross(direction(at<T>(1)), direction(at<T>(2))) + length(direction(at<T>(1)))); });
    note("inv", [&] { return inv(deg(at<T>(20))); });
    note("inv of a large angle", [&] { return inv(deg(at<T>(-75))); });
    note("inv_from_tangent", [&] { return inv_from_tangent(at<T>(0.4)); });
    note("inverse_inv", [&] { return inverse_inv(at<T>(0.02)); });
    note("inverse_inv of a large value", [&] { return inverse_inv(at<T>(-7)); });
    note("bracketed_root", [&] { return bracketed_root([](const T& x) { return T(x * x - T(2)); }, at<T>(0), at<T>(2)); });
    note("full_root_fillet_radius", [&] { return full_root_fillet_radius(deg(at<T>(20)), at<T>(1.25)); });
    note("fine pitch", [&] { return ansi_b6_7_fine_20(at<T>(32)).dedendum; });
    note("modules", [&] { return T(module_from_diametral_pitch(at<T>(8)) + module_in_millimetres_from_diametral_pitch(at<T>(8))); });
    note("racks are equal", [&] { return at<T>(basic_rack<T>(iso_53_a) == basic_rack<T>{} ? 1 : 0); });
    note("checks", [&] {
        return at<T>(check(basic_rack<T>{}) || check(parameters<T>(teeth, helix, shift)) || !check(gear_parameters<T>{}) ||
                             !check(pair_proportions<T>{})
                         ? 1
                         : 0);
    });

    // gear, root, measures
    note("angles of rack and hand", [&] { return g.normal_pressure_angle() + g.helix_angle() + g.base_helix_angle(); });
    bad_input::sizes_of_gear(g, note);
    const T diameter = T((g.reference_diameter() + g.tip_diameter()) / T(2));
    bad_input::sizes_at_diameter(g, diameter, note);
    bad_input::recommended_measures(g, note);
    bad_input::measures_over_teeth(g, 3, note);
    bad_input::measures_with_length(g, at<T>(4.5), note);
    bad_input::measures_with_length(g, T(g.tip_diameter() + at<T>(1)), note);
    note("thickness from pins", [&] { return normal_tooth_thickness_from_pins(g, at<T>(4.5), dimension_over_pins(g, at<T>(4.5))); });
    note("thickness from balls", [&] { return normal_tooth_thickness_from_balls(g, at<T>(4.5), dimension_over_balls(g, at<T>(4.5))); });
    note("fillet", [&] {
        const generated_root<T> root{g};
        const fillet_state<T> half = root.fillet().at(T(root.end_parameter() / T(2)));
        return T(half.curvature() + half.polar_angle() + half.tangent().x + at<T>(root.is_undercut() ? 1 : 0));
    });
    note("least teeth", [&] { return least_teeth_without_undercut(g.parameters().rack, at<T>(0.1), g.helix_angle()); });
    note("least shift", [&] { return least_profile_shift_without_undercut(g.parameters().rack, teeth, g.helix_angle()); });

    // pair
    const mesh<T> m{g, mate};
    bad_input::sizes_of_mesh(m, note);
    const mesh<T> apart{g, mate, T(m.centre_distance() + at<T>(0.1))};
    bad_input::sizes_of_mesh(apart, note);
    const pair_proportions<T> p = m.proportions();
    note("transverse_pressure_angle", [&] { return transverse_pressure_angle(p); });
    note("working_pressure_angle", [&] { return working_pressure_angle(p, at<T>(0.3)); });
    note("centre_distance", [&] { return centre_distance(p, at<T>(0.3)); });
    note("profile_shift_sum", [&] { return profile_shift_sum(p, m.centre_distance()); });
    note("split_profile_shift", [&] { return split_profile_shift(at<T>(0.4), teeth, teeth + 14); });
    note("tip_alteration_for_clearance", [&] { return tip_alteration_for_clearance(p, m.centre_distance(), at<T>(0.3)); });

    // findings
    const finding_list<T> all = findings(m);
    note("number of findings", [&] { return at<T>(static_cast<int>(all.size())); });
    for (const finding<T>& f : all) note(f.quantity, [&] { return T(f.value + f.limit); });
    note("findings on measures", [&] {
        return at<T>(static_cast<int>(findings(g).size() + span_findings(g, 2).size() + pin_findings(g, at<T>(4.5)).size() +
                                      chord_findings(g, g.reference_diameter()).size()));
    });

    // form and curve
    const outline<T> exact = outline_of(g);
    note("area", [&] { return exact.area(); });
    for (std::size_t i = 0; i < 6 && i < exact.segments.size(); ++i) {
        const segment<T>& s = exact.segments[i];
        const T middle = T((s.from + s.to) / T(2));
        note("point of a segment", [&] { return s.position(middle); });
        note("tangent of a segment", [&] { return s.tangent(middle); });
        note("curvature of a segment", [&] { return s.curvature(middle); });
        note("area of a segment", [&] { return s.swept_area(); });
    }
    const polyline<T> drawn = polyline_of(exact, at<T>(0.01));
    note("points of a polyline", [&] { return at<T>(static_cast<int>(drawn.points.size())); });
    note("deviation of a polyline", [&] { return drawn.deviation; });

    // internal pair, rack as mate, other tools, interference
    gear_parameters<T> inside = parameters<T>(3 * teeth + 10, helix, 0.0);
    inside.kind = gear_kind::internal;
    inside.tip_alteration = at<T>(-0.2);
    inside.tip_chamfer = at<T>(0.1);
    const gear<T> ring(inside);
    const mesh<T> within{g, ring};
    bad_input::sizes_of_mesh(within, note);
    note("hole", [&] { return outline_of(ring).area(); });
    note("moment of the hole", [&] { return section_of(outline_of(ring)).polar_moment; });
    note("fillet by a pinion-type cutter", [&] {
        return generated_root<T>(g, pinion_type_cutter<T>{.teeth = 25, .addendum = at<T>(1.25), .tip_radius = at<T>(0.2)}).root_form_diameter();
    });
    note("fillet by a tool with protuberance", [&] {
        const rack_type_cutter<T> hob{.addendum = at<T>(1.4), .tip_radius = at<T>(0.3), .protuberance = at<T>(0.1),
                                      .protuberance_angle = deg(at<T>(10)), .finishing_allowance = at<T>(0.04)};
        return generated_root<T>(g, hob).root_form_diameter();
    });
    note("interference", [&] {
        T sum = at<T>(0);
        for (const finding<T>& f : interference_findings(within)) sum += f.value;
        return sum;
    });
    const rack_mesh<T> on_rack{g, rack_parameters<T>{}};
    note("rack", [&] { return T(on_rack.transverse_contact_ratio() + on_rack.travel_per_turn() + on_rack.clearance_of_rack_tip()); });
    return note.values();
}

} // namespace

TEST_CASE("a scalar with the documented operations alone gives the numbers of double") {
    for (const int teeth : {9, 17, 18, 45}) {
        for (const double helix : {0.0, 18.0, -31.0}) {
            for (const double shift : {-0.1, 0.35}) {
                CAPTURE(teeth);
                CAPTURE(helix);
                CAPTURE(shift);
                named_values expected;
                try {
                    expected = everything<double>(teeth, helix, shift);
                } catch (const rackwork::geometry_error& error) {
                    CHECK_THROWS_WITH_AS(everything<number>(teeth, helix, shift), error.what(), rackwork::geometry_error);
                    continue;
                }
                const named_values found = everything<number>(teeth, helix, shift);
                CHECK(expected.size() > 180);
                REQUIRE(found.size() == expected.size());
                for (std::size_t i = 0; i < expected.size(); ++i) {
                    // The same operations; where the compiler may fuse a product and a sum it may do so here and not there.
                    const double size = std::max(1.0, std::fabs(expected[i].second));
                    const bool same = found[i].first == expected[i].first && std::fabs(found[i].second - expected[i].second) <= 1e-10 * size;
                    if (same) continue;
                    CAPTURE(expected[i].first);
                    CAPTURE(found[i].first);
                    CHECK(found[i].second == expected[i].second);
                }
            }
        }
    }
}

TEST_CASE("whatever the gear, its whole data sheet takes a bounded number of operations") {
    support::random_source random{31};
    long most = 0;
    int possible = 0;
    for (int i = 0; i < 4000; ++i) {
        rackwork::gear_parameters<number> p{.normal_module = number(random.uniform(0.1, 25)), .teeth = random.integer(1, 500)};
        if (random.coin()) p.teeth = random.integer(1, 25);
        p.helix_angle = rackwork::deg(number(random.coin() ? 0.0 : random.uniform(-89, 89)));
        p.rack.pressure_angle = rackwork::deg(number(random.coin() ? 20.0 : random.uniform(1, 89)));
        p.rack.addendum = number(random.uniform(0.01, 1.5));
        p.rack.dedendum = number(random.uniform(0.1, 1.5));
        p.rack.root_fillet_radius = number(random.coin() ? 0.0 : random.uniform(0, 0.5));
        p.profile_shift = number(random.coin() ? random.uniform(-1, 1) : random.uniform(-20, 20));
        if (rackwork::check(p)) continue;
        ++possible;
        const rackwork::gear<number> g{p};
        const long before = number::operations;
        notebook note;
        bad_input::sizes_of_gear(g, note);
        bad_input::recommended_measures(g, note);
        bad_input::measures_with_length(g, number(random.uniform(0.01, 100)), note);
        most = std::max(most, number::operations - before);
    }
    CHECK(possible > 500);
    // About 40 000 are needed, most of them by the dozen searches for roots. One that crept instead of halving would need millions.
    CAPTURE(most);
    CHECK(most > 1000);
    CHECK(most < 100000);
}
