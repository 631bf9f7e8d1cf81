// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// STEP as text: every reference leads to an entity, numbers read back to the bit, the same bytes always, loud failures. And keyways.
#include "exchange_streams.hpp"
#include "random_source.hpp"
#include "solid_support.hpp"

#include <rackwork/exchange/step.hpp>
#include <rackwork/exchange/stl.hpp>
#include <rackwork/solid/facets.hpp>
#include <rackwork/solid/gear_solid.hpp>

#include <doctest/doctest.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <iomanip>
#include <ios>
#include <limits>
#include <locale>
#include <set>
#include <sstream>
#include <string>

namespace {

using namespace solid_support;
using streams::comma;
using streams::full_disk;

template <class Solid>
std::string step(const Solid& solid, const rackwork::step_options& options = {}) {
    std::ostringstream out;
    rackwork::write_step(out, solid, options);
    return out.str();
}

brep small_solid() {
    return rackwork::brep_of(
        gear<double>({.normal_module = 2, .teeth = 7, .helix_angle = deg(10.), .profile_shift = 0.5, .face_width = 8}),
        {.blank = {.bore_diameter = 5}});
}

double read_real(std::string text) {
    REQUIRE(text.find('.') != std::string::npos);
    REQUIRE(text.find_first_not_of("-+.0123456789E") == std::string::npos);
    double value = 0;
    const auto end = std::from_chars(text.data(), text.data() + text.size(), value);
    // from_chars takes "5." and "1.E-17" as they are.
    REQUIRE(end.ptr == text.data() + text.size());
    return value;
}

} // namespace

TEST_CASE("a real has a point, has E before its exponent and reads back as the same double") {
    const auto text = [](double number) {
        std::string result;
        rackwork::detail::append_step_real(result, number);
        return result;
    };
    CHECK(text(0) == "0.");
    CHECK(text(-0.0) == "0.");
    CHECK(text(12) == "12.");
    CHECK(text(-0.25) == "-0.25");
    CHECK(text(1e-17) == "1.E-17");
    support::random_source random{5};
    for (int i = 0; i < 20000; ++i) {
        const double value = std::ldexp(random.uniform(-1, 1), random.integer(-300, 300));
        REQUIRE(read_real(text(value)) == value);
    }
}

TEST_CASE("the caller's words are in the file as the standard's clear text has them") {
    using rackwork::detail::step_string;
    CHECK(step_string("Pinion 3") == "'Pinion 3'");
    CHECK(step_string("d'or \\ 5") == "'d''or \\\\ 5'");
    CHECK(step_string("M\xC3\xBChlrad") == "'M\\X2\\00FC\\X0\\hlrad'");
    CHECK(step_string("\xE6\xAD\xAF") == "'\\X2\\6B6F\\X0\\'");
    CHECK(step_string("\xF0\x9F\x94\xA7") == "'\\X4\\0001F527\\X0\\'");
    CHECK(step_string("a\nb") == "'a\\X2\\000A\\X0\\b'");
    CHECK(step_string("\xFF") == "'\\X2\\FFFD\\X0\\'");
    CHECK(step_string(std::string_view("\0", 1)) == "'\\X2\\FFFD\\X0\\'");
    const std::string file =
        step(small_solid(), {.name = "it's \xC3\xBC", .author = "A. Nyone", .organization = "Mill"});
    CHECK(file.find("PRODUCT('it''s \\X2\\00FC\\X0\\','it''s \\X2\\00FC\\X0\\',") != std::string::npos);
    CHECK(file.find("('A. Nyone'),('Mill')") != std::string::npos);
}

TEST_CASE("entities are numbered in order, and each reference is to one that stands before it") {
    std::istringstream lines(step(small_solid()));
    std::string line;
    std::size_t expected = 1;
    std::size_t products = 0;
    while (std::getline(lines, line)) {
        if (line.rfind("MANIFOLD_SOLID_BREP") != std::string::npos) ++products;
        if (line.front() != '#') continue;
        REQUIRE(line.back() == ';');
        REQUIRE(std::stoul(line.substr(1)) == expected);
        for (std::size_t at = line.find('#', 1); at != std::string::npos; at = line.find('#', at + 1)) {
            REQUIRE(std::stoul(line.substr(at + 1)) < expected);
        }
        ++expected;
    }
    CHECK(expected > 1000);
    CHECK(products == 1);
}

TEST_CASE("faces are written with the sense of their surfaces, and each edge in both directions") {
    const brep solid = small_solid();
    std::istringstream lines(step(solid));
    std::string line;
    std::size_t faces = 0;
    std::size_t forward = 0;
    std::size_t backward = 0;
    while (std::getline(lines, line)) {
        const bool same_sense = line.size() > 5 && line.substr(line.size() - 5) == ".T.);";
        if (line.find("=ADVANCED_FACE(") != std::string::npos) {
            REQUIRE(faces < solid.faces.size());
            CHECK(same_sense == solid.faces[faces++].outward);
        }
        if (line.find("=ORIENTED_EDGE(") != std::string::npos) ++(same_sense ? forward : backward);
    }
    CHECK(faces == solid.faces.size());
    CHECK(forward == solid.edges.size());
    CHECK(backward == solid.edges.size());
}

TEST_CASE("unit, uncertainty, deviation and time stamp stand where they belong") {
    const brep solid = small_solid();
    const std::string millimetres = step(solid);
    CHECK(millimetres.find("CONVERSION_BASED_UNIT") == std::string::npos);
    CHECK(millimetres.find("'1970-01-01T00:00:00'") != std::string::npos);
    CHECK(millimetres.find("boundary within ") != std::string::npos);
    const std::string inches = step(solid, {.unit = rackwork::length_unit::inch, .time_stamp = "2024-02-29T12:00:00"});
    CHECK(inches.find("CONVERSION_BASED_UNIT('INCH'") != std::string::npos);
    CHECK(inches.find("LENGTH_MEASURE(25.4)") != std::string::npos);
    CHECK(inches.find("'2024-02-29T12:00:00'") != std::string::npos);
    const std::size_t at = millimetres.find("UNCERTAINTY_MEASURE_WITH_UNIT(LENGTH_MEASURE(") + 45;
    const double uncertainty = read_real(millimetres.substr(at, millimetres.find(')', at) - at));
    CHECK(uncertainty == std::max(solid.edge_deviation, 1e-8 * solid.size));
}

TEST_CASE("the same solid is the same bytes, whatever the locale and the stream's state") {
    const brep solid = small_solid();
    const std::string bytes = step(solid);
    const std::locale before = std::locale::global(std::locale(std::locale::classic(), new comma));
    std::ostringstream witness;
    witness << 1234.5;
    REQUIRE(witness.str() == "1.234,5"); // the locale is in force
    CHECK(step(small_solid()) == bytes);
    std::ostringstream odd;
    odd << std::setw(40) << std::setfill('*') << std::hex << std::showbase << std::showpos << std::scientific
        << std::setprecision(2);
    rackwork::write_step(odd, solid);
    CHECK(odd.str() == bytes);
    std::locale::global(before);
}

TEST_CASE("a stream that does not take every byte of a solid is reported, and nothing is written of no solid") {
    const brep solid = small_solid();
    const rackwork::facet_solid facets =
        rackwork::facets_of(gear<double>({.normal_module = 2, .teeth = 12, .face_width = 2}));
    const auto check_writer = [](std::size_t size, const auto& write) {
        for (const std::size_t room : {std::size_t{0}, std::size_t{1}, std::size_t{4096}, size / 2, size - 1}) {
            full_disk disk(room);
            std::ostream out(&disk);
            CHECK_THROWS_AS(write(out), std::ios_base::failure);
        }
        full_disk disk(size);
        std::ostream out(&disk);
        CHECK_NOTHROW(write(out));
    };
    check_writer(step(solid).size(), [&](std::ostream& out) { rackwork::write_step(out, solid); });
    check_writer(84 + 50 * facets.facets.size(), [&](std::ostream& out) { rackwork::write_stl(out, facets); });
    std::ostringstream out;
    CHECK_THROWS_AS(rackwork::write_step(out, std::vector<brep>{}), rackwork::geometry_error);
    CHECK(out.str().empty());
}

TEST_CASE("keyways are those of the tables, at the ends of each range as well") {
    using rackwork::inch_keyway;
    using rackwork::keyway;
    using rackwork::metric_keyway;
    // ISO/R 773, from memory: a shaft of 30 still has the key 8 x 7, one above it the key 10 x 8.
    static_assert(metric_keyway(25) == keyway{.width = 8, .hub_depth = 3.3});
    static_assert(metric_keyway(30) == keyway{.width = 8, .hub_depth = 3.3});
    static_assert(metric_keyway(30.1) == keyway{.width = 10, .hub_depth = 3.3});
    static_assert(metric_keyway(200) == keyway{.width = 45, .hub_depth = 10.4});
    static_assert(metric_keyway(6.5) == keyway{.width = 2, .hub_depth = 1});
    CHECK_THROWS_AS(metric_keyway(6), rackwork::geometry_error);
    CHECK_THROWS_AS(metric_keyway(201), rackwork::geometry_error);
    CHECK_THROWS_AS(metric_keyway(std::numeric_limits<double>::quiet_NaN()), rackwork::geometry_error);
    // Common practice for a 1 in bore with a 1/4 in square key: bore + t_2 is 1.114 in.
    CHECK(inch_keyway(1).width == 0.25);
    CHECK(1 + inch_keyway(1).hub_depth == doctest::Approx(1.114).epsilon(0.0005));
    CHECK_THROWS_AS(inch_keyway(0.3), rackwork::geometry_error);
    // Each range begins where the one before it ends, keys grow with their shafts, and the two depths leave play above the key.
    const auto check_table = [](const auto& keys, double least_play) {
        for (std::size_t i = 0; i < std::size(keys); ++i) {
            CHECK(keys[i].shaft_depth + keys[i].hub_depth >= keys[i].height + least_play - 1e-12);
            if (i == 0) continue;
            CHECK(keys[i].shaft_above == keys[i - 1].shaft_up_to);
            CHECK(keys[i].width > keys[i - 1].width);
        }
    };
    check_table(rackwork::iso_r_773_keys, 0.2);
    check_table(rackwork::ansi_b17_1_keys, 0);
}
