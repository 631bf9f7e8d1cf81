// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Curves of internal gears: the material's side, parallels and the largest tool.
#include <rackwork/curve/offset.hpp>
#include <rackwork/curve/offset_reach.hpp>
#include <rackwork/curve/one_sided_polyline.hpp>
#include <rackwork/form/outline.hpp>

#include <doctest/doctest.h>

#include <cmath>
#include <cstddef>

namespace {

using rackwork::gear;
using rackwork::gear_kind;
using rackwork::outline;
using rackwork::outline_side;
using rackwork::point;

gear<double> ring_of(int teeth, double shift = 0) {
    return gear<double>{{.normal_module = 2, .teeth = teeth, .kind = gear_kind::internal, .profile_shift = shift, .tip_rounding = 0.2}};
}

double area_of(const rackwork::polyline<double>& p) {
    double sum = 0;
    for (std::size_t i = 0; i < p.points.size(); ++i) sum += cross(p.points[i], p.points[(i + 1) % p.points.size()]) / 2;
    return sum;
}

} // namespace

TEST_CASE("an outline run the other way is the same outline, and twice reversed itself") {
    const outline<double> hole = outline_of(ring_of(40));
    const outline<double> back = reversed(hole);
    CHECK(back.area() == doctest::Approx(-hole.area()).epsilon(1e-13));
    const outline<double> again = reversed(back);
    REQUIRE(again.segments.size() == hole.segments.size());
    for (std::size_t i = 0; i < hole.segments.size(); ++i) {
        CHECK(again.segments[i].start == hole.segments[i].start);
        CHECK(again.segments[i].end == hole.segments[i].end);
        CHECK(again.segments[i].corner_at_end == hole.segments[i].corner_at_end);
        const std::size_t next = (i + 1) % back.segments.size();
        CHECK(back.segments[i].end == back.segments[next].start);
        if (!back.segments[i].corner_at_end) {
            CHECK(length(back.segments[i].tangent(back.segments[i].to) - back.segments[next].tangent(back.segments[next].from)) < 1e-12);
        }
    }
}

TEST_CASE("a polyline on the free side of a ring leaves metal everywhere, one on the material's side cuts into it") {
    const outline<double> around_metal = reversed(outline_of(ring_of(48, 0.2)));
    const double hole = -around_metal.area();
    const auto free_side = one_sided_polyline_of(around_metal, 1e-3, outline_side::free);
    const auto material_side = one_sided_polyline_of(around_metal, 1e-3, outline_side::material);
    CHECK(-area_of(free_side) < hole);
    CHECK(-area_of(material_side) > hole);
    CHECK(-area_of(free_side) == doctest::Approx(hole).epsilon(1e-3));
}

TEST_CASE("the largest tool of a ring reaches every point, one a little larger does not") {
    for (const int teeth : {36, 52, 90}) {
        const gear<double> ring = ring_of(teeth);
        const outline<double> around_metal = reversed(outline_of(ring));
        const double largest = largest_tool_radius(ring);
        CAPTURE(teeth);
        CHECK(largest == doctest::Approx(largest_tool_radius(around_metal)).epsilon(1e-8));
        CHECK(offset_of(around_metal, largest * 0.999).unreached.empty());
        CHECK_FALSE(offset_of(around_metal, largest * 1.02).unreached.empty());
        // There and back.
        const auto away = offset_of(around_metal, largest * 0.9);
        REQUIRE(away.loops.size() == 1);
        const auto back = offset_of(away.loops.front(), -largest * 0.9);
        REQUIRE(back.loops.size() == 1);
        double area = 0;
        const auto& s = back.loops.front().segments;
        for (std::size_t i = 0; i < s.size(); ++i) {
            // Fine chords: enough to tell the two apart.
            point<double> before = s[i].start;
            for (int k = 1; k <= 200; ++k) {
                const point<double> here = s[i].position(s[i].from + (s[i].to - s[i].from) * k / 200);
                area += cross(before, here) / 2;
                before = here;
            }
        }
        CHECK(area == doctest::Approx(around_metal.area()).epsilon(1e-6));
    }
}
