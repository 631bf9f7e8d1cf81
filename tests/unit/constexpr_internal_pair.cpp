// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// A pinion in an internal wheel, its sheet, its measures and its findings, all known to the compiler under its default limits.
#include <rackwork/findings.hpp>
#include <rackwork/measure/pins.hpp>
#include <rackwork/measure/span.hpp>
#include <rackwork/mesh.hpp>

#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <cstddef>
#include <limits>

namespace {

using namespace rackwork;
using namespace rackwork::literals;

constexpr gear_parameters<double> of_pinion{.normal_module = 2,
                                            .teeth = 18,
                                            .helix_angle = 10_deg,
                                            .profile_shift = 0.2,
                                            .thickness_allowance = -0.05,
                                            .face_width = 20};
constexpr gear_parameters<double> of_wheel{.normal_module = 2,
                                           .teeth = 61,
                                           .kind = gear_kind::internal,
                                           .helix_angle = 10_deg,
                                           .thickness_allowance = -0.05,
                                           .face_width = 20};

constexpr std::array<double, 16> sheet_of(const mesh<double>& m) {
    return {m.centre_distance(),
            m.working_pressure_angle().rad(),
            m.working_diameter().wheel,
            m.root_form_diameter().pinion,
            m.root_form_diameter().wheel,
            m.active_tip_diameter().wheel,
            m.active_root_diameter().pinion,
            m.active_root_diameter().wheel,
            m.transverse_contact_ratio(),
            m.total_contact_ratio(),
            m.bottom_clearance().pinion,
            m.bottom_clearance().wheel,
            m.normal_backlash(),
            m.radial_backlash(),
            span_measurement(m.pinion(), recommended_teeth_spanned(m.pinion())),
            dimension_over_pins(m.pinion(), 3.5)};
}

constexpr mesh<double> pair{gear{of_pinion}, gear{of_wheel}};
constexpr std::array<double, 16> sheet = sheet_of(pair);
static_assert(pair.is_internal() && pair.wheel().tip_diameter() < pair.wheel().root_diameter());
static_assert(pair.total_contact_ratio() > pair.transverse_contact_ratio() && pair.transverse_contact_ratio() > 1);
static_assert(pair.normal_backlash() > 0 && pair.radial_backlash() > 0);
static_assert(pair.active_root_diameter().wheel <= pair.root_form_diameter().wheel);
constexpr std::size_t number_of_findings = findings(pair).size();

} // namespace

TEST_CASE("the compiler's internal pair is the program's") {
    const volatile double module = of_pinion.normal_module;
    gear_parameters<double> pinion = of_pinion;
    gear_parameters<double> wheel = of_wheel;
    pinion.normal_module = wheel.normal_module = module;
    const mesh<double> computed{gear{pinion}, gear{wheel}};
    const auto sheet_now = sheet_of(computed);
    for (std::size_t i = 0; i < sheet.size(); ++i) {
        CAPTURE(i);
        CHECK(std::fabs(sheet[i] - sheet_now[i]) <= 64 * std::numeric_limits<double>::epsilon() * pair.wheel().root_diameter());
    }
    CHECK(findings(computed).size() == number_of_findings);
}
