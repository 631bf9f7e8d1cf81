// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Contact lines of spur and helical pairs: their total length over the mesh cycle against counting.
#include <rackwork/analysis/contact_lines.hpp>

#include "random_source.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include <doctest/doctest.h>

using rackwork::contact_line;
using rackwork::contact_lines;
using rackwork::deg;
using rackwork::gear;
using rackwork::gear_parameters;
using rackwork::mesh;

namespace {

constexpr mesh<double> helical_pair(double helix, double width, double shift = 0, int pinion_teeth = 23) {
    return mesh<double>{
        gear<double>{{.normal_module = 2,
                      .teeth = pinion_teeth,
                      .helix_angle = deg(helix),
                      .profile_shift = shift,
                      .face_width = width}},
        gear<double>{{.normal_module = 2, .teeth = 57, .helix_angle = deg(-helix), .face_width = width + 1}}};
}

/// Overlap ratios from a few hundredths to more than four, of all combinations of broken parts.
std::vector<mesh<double>> pairs() {
    std::vector<mesh<double>> result;
    support::random_source random{23};
    for (int i = 0; i < 400; ++i) {
        const double helix = (random.coin() ? 1 : -1) * random.uniform(2, 40);
        const double width = random.uniform(3, 60);
        const double shift = random.uniform(-0.2, 0.8);
        result.push_back(helical_pair(helix, width, shift, random.integer(17, 60)));
    }
    return result;
}

/// The phases at which an end of a line comes or goes; between them the total length is linear.
std::vector<double> changes(const mesh<double>& pair) {
    const auto broken = [](double x) { return x - std::floor(x); };
    const double transverse = pair.transverse_contact_ratio();
    const double overlap = pair.overlap_contact_ratio();
    return {0, broken(transverse), broken(-overlap), broken(transverse - overlap), 1};
}

} // namespace

TEST_CASE("the total length of the contact lines is what counting them across the width gives") {
    for (const mesh<double>& pair : pairs()) {
        const contact_lines<double> lines{pair};
        const double transverse = pair.transverse_contact_ratio();
        const double overlap = pair.overlap_contact_ratio();
        constexpr int slices = 2000;
        for (const double phase : {0.013, 0.37, 0.81}) {
            // In each slice of the width, the flanks that stand a base pitch apart and within the path.
            long touching = 0;
            for (int i = 0; i < slices; ++i) {
                const double first = phase + overlap * (i + 0.5) / slices;
                for (int k = -7; k <= 3; ++k) {
                    if (0 <= first + k && first + k < transverse) ++touching;
                }
            }
            const double counted = double(touching) / slices * lines.full_length();
            // Each of the two ends of the path, crossed by no more than six lines, is told to a slice.
            CHECK(std::fabs(lines.total_length(phase) - counted) <= 12 * lines.full_length() / slices);
        }
    }
}

TEST_CASE("least and greatest total length of the closed formulas are reached and never exceeded") {
    int below_1 = 0; // f_a + f_b below 1
    int above_1 = 0;
    double worst = 0;
    for (const mesh<double>& pair : pairs()) {
        const contact_lines<double> lines{pair};
        double least = std::numeric_limits<double>::infinity();
        double greatest = 0;
        for (const double phase : changes(pair)) {
            least = std::min(least, lines.total_length(phase));
            greatest = std::max(greatest, lines.total_length(phase));
        }
        const double unit =
            std::numeric_limits<double>::epsilon() * greatest * std::max(1.0, 1 / pair.overlap_contact_ratio());
        worst = std::max({worst, std::fabs(lines.least_total_length() - least) / unit,
                          std::fabs(lines.greatest_total_length() - greatest) / unit});
        for (int i = 0; i <= 200; ++i) {
            const double length = lines.total_length(i / 200.0);
            CHECK(length >= lines.least_total_length() - 16 * unit);
            CHECK(length <= lines.greatest_total_length() + 16 * unit);
        }
        const auto broken = [](double x) { return x - std::floor(x); };
        ++(broken(pair.transverse_contact_ratio()) + broken(pair.overlap_contact_ratio()) < 1 ? below_1 : above_1);
    }
    MESSAGE("closed formulas against the lines themselves: " << worst << " epsilon of the greatest length");
    CHECK(worst <= 16);
    CHECK(below_1 > 50);
    CHECK(above_1 > 50);
}

TEST_CASE("the mean over the mesh cycle is the contact ratio times a full line") {
    for (const mesh<double>& pair : pairs()) {
        const contact_lines<double> lines{pair};
        // Piecewise linear: the trapezium over all changes is exact.
        std::vector<double> phases = changes(pair);
        std::sort(phases.begin(), phases.end());
        double mean = 0;
        for (std::size_t i = 1; i < phases.size(); ++i) {
            mean +=
                (phases[i] - phases[i - 1]) * (lines.total_length(phases[i]) + lines.total_length(phases[i - 1])) / 2;
        }
        CHECK(mean == doctest::Approx(lines.mean_total_length()).epsilon(1e-12));
        CHECK(lines.mean_total_length() == doctest::Approx(pair.transverse_contact_ratio() * lines.face_width() /
                                                           std::cos(pair.pinion().base_helix_angle().rad()))
                                               .epsilon(1e-14));
    }
}

TEST_CASE(
    "each line stays in the field of contact, leans by the base helix angle and is as long as its ends are apart") {
    for (const mesh<double>& pair : pairs()) {
        const contact_lines<double> lines{pair};
        const rackwork::path_of_contact<double> path{pair};
        const double tangent = std::fabs(std::tan(pair.pinion().base_helix_angle().rad()));
        int touching = 0;
        for (int i = 0; i < lines.most_lines(); ++i) {
            const contact_line<double> line = lines.line(i, 0.42);
            if (line.length == 0) continue;
            ++touching;
            const double along = line.to_distance - line.from_distance;
            const double across = line.from_width - line.to_width;
            CHECK(along == doctest::Approx(across * tangent).epsilon(1e-9));
            CHECK(line.length == doctest::Approx(std::hypot(along, across)).epsilon(1e-12));
            for (const double g : {line.from_distance, line.to_distance}) {
                CHECK(g >= path.point_a().distance_from_pitch_point() - 1e-12);
                CHECK(g <= path.point_e().distance_from_pitch_point() + 1e-12);
            }
            for (const double w : {line.from_width, line.to_width}) {
                CHECK(w >= 0);
                CHECK(w <= lines.face_width());
            }
        }
        CHECK(touching >= 1);
        CHECK(touching <= pair.total_contact_ratio() + 1);
    }
}

TEST_CASE("whole contact ratios keep the total length of the contact lines constant") {
    // A face width that makes the overlap ratio exactly 1 or 2: one line comes in as fast as another goes out.
    const double helix = 20;
    const double one = 2 * rackwork::pi<double>() / std::sin(helix * rackwork::pi<double>() / 180);
    for (const double turns : {1.0, 2.0}) {
        const contact_lines<double> lines{helical_pair(helix, turns * one)};
        CHECK(lines.least_total_length() == doctest::Approx(lines.greatest_total_length()).epsilon(1e-13));
        CHECK(lines.total_length(0.3) == doctest::Approx(lines.mean_total_length()).epsilon(1e-13));
    }
}

TEST_CASE("a spur pair has one or two full lines, and a hair of helix changes that but little") {
    constexpr mesh<double> spur = helical_pair(0, 20);
    constexpr contact_lines<double> lines{spur};
    static_assert(lines.least_total_length() == 20);
    static_assert(lines.greatest_total_length() == 40);
    static_assert(lines.total_length(0.9) == 20);
    static_assert(lines.total_length(0.1) == 40);
    CHECK(lines.mean_total_length() == doctest::Approx(spur.transverse_contact_ratio() * 20).epsilon(1e-14));
    const contact_lines<double> nearly{helical_pair(1e-9, 20)};
    CHECK(nearly.least_total_length() == doctest::Approx(20).epsilon(1e-6));
    CHECK(nearly.greatest_total_length() == doctest::Approx(40).epsilon(1e-6));
    CHECK(nearly.total_length(0.9) == doctest::Approx(20).epsilon(1e-6));
    CHECK(nearly.total_length(0.1) == doctest::Approx(40).epsilon(1e-6));
}

TEST_CASE("contact lines need a face width, a phase within the cycle and an index that exists") {
    const gear<double> pinion{{.normal_module = 2, .teeth = 23}};
    const gear<double> wheel{{.normal_module = 2, .teeth = 57, .face_width = 20}};
    CHECK_THROWS_AS((contact_lines<double>{mesh<double>{pinion, wheel}}), rackwork::geometry_error);
    const contact_lines<double> lines{helical_pair(15, 20)};
    CHECK(lines.face_width() == 20);
    CHECK_THROWS_AS(contact_lines<double>{helical_pair(15, 1e9)}, rackwork::geometry_error); // millions of lines
    CHECK_THROWS_AS(lines.total_length(-0.01), rackwork::geometry_error);
    CHECK_THROWS_AS(lines.total_length(1.01), rackwork::geometry_error);
    CHECK_THROWS_AS(lines.total_length(std::numeric_limits<double>::quiet_NaN()), rackwork::geometry_error);
    CHECK_THROWS_AS(lines.line(lines.most_lines(), 0.5), rackwork::geometry_error);
}
