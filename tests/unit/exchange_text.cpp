// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// What leaves the writers as text: numbers, the caller's words, the same bytes always, and failures that are loud.
#include "exchange_drawings.hpp"
#include "exchange_streams.hpp"
#include "random_source.hpp"

#include <rackwork/exchange/text_output.hpp>
#include <rackwork/exchange/xml_text.hpp>

#include <doctest/doctest.h>

#include <clocale>
#include <cmath>
#include <cstring>
#include <iomanip>
#include <ios>
#include <limits>
#include <locale>
#include <sstream>
#include <string>

namespace {

using exchange_drawings::dxf;
using exchange_drawings::number;
using exchange_drawings::svg;
using rackwork::gear;
using rackwork::gear_parameters;
using rackwork::mesh;
using rackwork::detail::decimals_for;
using rackwork::detail::exact_text;
using rackwork::detail::rounded_text;
using rackwork::detail::xml_text;
using streams::comma;
using streams::full_disk;
using streams::unplugged_disk;

mesh<double> small_pair() {
    return mesh(gear{gear_parameters<double>{.normal_module = 2.5, .teeth = 9, .profile_shift = 0.4, .thickness_allowance = -0.03}},
                gear{gear_parameters<double>{.normal_module = 2.5, .teeth = 14, .profile_shift = 0.1}});
}

/// The locale of the C library; the only thread there is may ask and set it.
const char* c_locale(const char* name) {
    return std::setlocale(LC_ALL, name); // NOLINT(concurrency-mt-unsafe)
}

/// Sets the locale of streams and of the C library, and puts back what was there.
class foreign_locale {
public:
    foreign_locale() : c_before_(c_locale(nullptr)), before_(std::locale::global(std::locale(std::locale::classic(), new comma))) {
        // Whichever of them is installed; the facet above needs none.
        for (const char* name : {"de_DE.UTF-8", "fr_FR.UTF-8", "cs_CZ.UTF-8", ""}) {
            if (c_locale(name) != nullptr) break;
        }
    }
    ~foreign_locale() {
        std::locale::global(before_);
        static_cast<void>(c_locale(c_before_.c_str()));
    }
    foreign_locale(const foreign_locale&) = delete;
    foreign_locale& operator=(const foreign_locale&) = delete;

private:
    std::string c_before_;
    std::locale before_;
};

} // namespace

TEST_CASE("a number written exactly reads back as the same double, without an exponent") {
    support::random_source random{11};
    const double ends[] = {0.1,
                           1e22,
                           1e-7,
                           123456789,
                           (std::numeric_limits<double>::max)(),
                           (std::numeric_limits<double>::min)(),
                           std::numeric_limits<double>::denorm_min(),
                           -(std::numeric_limits<double>::max)()};
    for (const double value : ends) {
        CHECK(number(exact_text(value)) == value);
        CHECK(exact_text(value).find_first_not_of("-.0123456789") == std::string::npos);
    }
    for (int i = 0; i < 20000; ++i) {
        const double value = std::ldexp(random.uniform(-1, 1), random.integer(-1000, 1000));
        const std::string text = exact_text(value);
        REQUIRE(number(text) == value);
        REQUIRE(text.find('e') == std::string::npos);
    }
    CHECK(exact_text(0.1) == "0.1");
    CHECK(exact_text(100000) == "100000");
    CHECK(exact_text(-0.0) == "0");
}

TEST_CASE("a rounded number is at most half of its last place away and ends without needless zeros") {
    support::random_source random{12};
    for (int i = 0; i < 20000; ++i) {
        const int decimals = random.integer(0, 8);
        const double value = random.uniform(-2000, 2000);
        const std::string text = rounded_text(value, decimals);
        REQUIRE(std::abs(number(text) - value) <= 0.5000001 * std::pow(10, -decimals));
        const std::size_t point = text.find('.');
        if (point == std::string::npos) continue;
        REQUIRE(text.size() - point - 1 <= static_cast<std::size_t>(decimals));
        REQUIRE(text.back() != '0');
        REQUIRE(text.back() != '.');
    }
    CHECK(rounded_text(92.00000000000001, 6) == "92");
    CHECK(rounded_text(100, 0) == "100");
    CHECK(rounded_text(-0.0004, 3) == "0");
    CHECK(rounded_text(-1e-200, 160) == "0");
    CHECK(number(rounded_text(1e150, 160)) == 1e150);
}

TEST_CASE("so many decimals are written that the last place is worth no more than asked") {
    CHECK(decimals_for(10) == 0);
    CHECK(decimals_for(1) == 0);
    CHECK(decimals_for(0.5) == 1);
    CHECK(decimals_for(0.00003) == 5);
    for (double step = 0.9; step > 1e-140; step /= 7) {
        CHECK(std::pow(10, -decimals_for(step)) <= step * (1 + 1e-12));
        CHECK(std::pow(10, 1 - decimals_for(step)) > step * (1 - 1e-12));
    }
}

TEST_CASE("the caller's words go into XML as they are, and only as characters that XML allows") {
    CHECK(xml_text("Mühlrad 3 < 4 & \"5\" > 2") == "Mühlrad 3 &lt; 4 &amp; &quot;5&quot; &gt; 2");
    const std::string replaced = "\xEF\xBF\xBD";
    CHECK(xml_text(std::string_view("a\0b\x1F", 4)) == "a" + replaced + "b" + replaced);
    CHECK(xml_text("tab\tline\n") == "tab\tline\n");
    CHECK(xml_text("\xF0\x9F\x94\xA7 \xE6\xAD\xAF\xE8\xBB\x8A") == "\xF0\x9F\x94\xA7 \xE6\xAD\xAF\xE8\xBB\x8A");
    CHECK(xml_text("\xFF") == replaced);
    CHECK(xml_text("\xC3") == replaced);                                   // cut short
    CHECK(xml_text("\xC0\xBC") == replaced + replaced);                    // '<' in two bytes
    CHECK(xml_text("\xED\xA0\x80") == replaced + replaced + replaced);     // half of a surrogate pair
    CHECK(xml_text("\xEF\xBF\xBF") == replaced + replaced + replaced);     // not a character
    CHECK(xml_text("\xF4\x90\x80\x80") == replaced + replaced + replaced + replaced); // beyond the last one
}

TEST_CASE("a title of any bytes leaves the drawing well-formed where it matters") {
    const std::string file = svg(small_pair(), rackwork::svg_options{.title = "<b>&\x01</title>"});
    CHECK(file.find("<title>&lt;b&gt;&amp;\xEF\xBF\xBD&lt;/title&gt;</title>") != std::string::npos);
}

TEST_CASE("the same drawing is the same bytes, run after run and whatever the locale and the stream's state") {
    const mesh<double> pair = small_pair();
    const std::string svg_bytes = svg(pair);
    const std::string dxf_bytes = dxf(pair);
    const std::string one_svg = svg(pair.wheel());
    const std::string one_dxf = dxf(pair.wheel());
    CHECK(svg(pair) == svg_bytes);
    CHECK(dxf(pair) == dxf_bytes);

    const foreign_locale abroad;
    std::ostringstream witness;
    witness << 1234.5;
    REQUIRE(witness.str() == "1.234,5"); // the locale is in force
    CHECK(svg(pair) == svg_bytes);
    CHECK(dxf(pair) == dxf_bytes);
    CHECK(svg(pair.wheel()) == one_svg);
    CHECK(dxf(pair.wheel()) == one_dxf);

    std::ostringstream odd;
    odd << std::setw(40) << std::setfill('*') << std::hex << std::showbase << std::showpos << std::uppercase << std::scientific
        << std::setprecision(2);
    rackwork::write_svg(odd, pair);
    CHECK(odd.str() == svg_bytes);
    odd.str("");
    odd << std::setw(40);
    rackwork::write_dxf(odd, pair);
    CHECK(odd.str() == dxf_bytes);
}

TEST_CASE("a stream that does not take every byte is reported") {
    const mesh<double> pair = small_pair();
    const auto check_writer = [](std::size_t size, const auto& write) {
        for (const std::size_t room : {std::size_t{0}, std::size_t{1}, std::size_t{4095}, std::size_t{4096}, size / 2, size - 1}) {
            full_disk disk(room);
            std::ostream out(&disk);
            CHECK_THROWS_AS(write(out), std::ios_base::failure);
        }
        full_disk disk(size);
        std::ostream out(&disk);
        CHECK_NOTHROW(write(out));
    };
    check_writer(svg(pair).size(), [&](std::ostream& out) { rackwork::write_svg(out, pair); });
    check_writer(svg(pair.wheel()).size(), [&](std::ostream& out) { rackwork::write_svg(out, pair.wheel()); });
    check_writer(dxf(pair).size(), [&](std::ostream& out) { rackwork::write_dxf(out, pair); });
    check_writer(dxf(pair.wheel()).size(), [&](std::ostream& out) { rackwork::write_dxf(out, pair.wheel()); });

    unplugged_disk unplugged;
    std::ostream out(&unplugged);
    CHECK_THROWS_AS(rackwork::write_svg(out, pair), std::ios_base::failure);
    std::ostringstream broken;
    broken.setstate(std::ios_base::badbit);
    CHECK_THROWS_AS(rackwork::write_dxf(broken, pair), std::ios_base::failure);
    std::ostream nowhere(nullptr);
    CHECK_THROWS_AS(rackwork::write_svg(nowhere, pair), std::ios_base::failure);
}

TEST_CASE("an impossible tolerance is refused before the first byte") {
    const mesh<double> pair = small_pair();
    const double bad[] = {0, -0.001, 1e-14, std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity()};
    for (const double tolerance : bad) {
        CAPTURE(tolerance);
        std::ostringstream out;
        CHECK_THROWS_AS(rackwork::write_svg(out, pair, {.tolerance = tolerance}), rackwork::geometry_error);
        CHECK_THROWS_AS(rackwork::write_svg(out, pair.wheel(), {.tolerance = tolerance}), rackwork::geometry_error);
        CHECK_THROWS_AS(rackwork::write_dxf(out, pair, {.tolerance = tolerance}), rackwork::geometry_error);
        CHECK_THROWS_AS(rackwork::write_dxf(out, pair.wheel(), {.tolerance = tolerance}), rackwork::geometry_error);
        CHECK(out.str().empty());
    }
}
