// Example sensitivity: the pair, and what may differ on it.
#pragma once

#include <rackwork/measure/pins.hpp>
#include <rackwork/measure/span.hpp>
#include <rackwork/mesh.hpp>

#include <array>
#include <cstddef>

/// The travel drive of a small sawmill's log carriage: a helical pair, 19 and 57 teeth of module 2.5, in a cast housing bored at 99 mm.
namespace sensitivity {

/// What can come out other than stated, how far either way, and in which unit. Set as a small workshop might; not from a standard.
struct tolerance {
    const char* name;
    double half_range;
    const char* unit;
};
inline constexpr std::array<tolerance, 10> tolerances{{{"centre distance", 0.027, "mm"},
                                                       {"pinion's tooth thickness", 0.015, "mm"},
                                                       {"wheel's tooth thickness", 0.020, "mm"},
                                                       {"pinion's tip diameter", 0.030, "mm"},
                                                       {"wheel's tip diameter", 0.040, "mm"},
                                                       {"hob's pressure angle", 0.050, "deg"},
                                                       {"hob's module", 0.0008, "mm"},
                                                       {"helix angle, both alike", 0.020, "deg"},
                                                       {"measuring pins of the pinion", 0.001, "mm"},
                                                       {"measuring pins of the wheel", 0.001, "mm"}}};

/// What is looked at.
struct result {
    const char* name;
    const char* unit;
    double unit_of_change; ///< changes are shown in this unit of the result ...
    const char* change;    ///< ... which is called so
};
inline constexpr std::array<result, 6> results{{{"pinion's span", "mm", 1e-3, "um"},
                                                {"pinion over pins", "mm", 1e-3, "um"},
                                                {"wheel's span", "mm", 1e-3, "um"},
                                                {"wheel over pins", "mm", 1e-3, "um"},
                                                {"normal backlash", "mm", 1e-3, "um"},
                                                {"contact ratio", "", 1e-3, "1/1000"}}};

/// The results for deviations from the nominal values, in the order and the units of the tolerances. T: double, or a number that carries
/// derivatives.
template <class T>
std::array<T, results.size()> results_at(const std::array<T, tolerances.size()>& deviation) {
    const auto& [centre, thickness_1, thickness_2, tip_1, tip_2, pressure, module, helix, pins_1, pins_2] = deviation;
    constexpr double nominal_module = 2.5;
    constexpr double shift_1 = 0.3;
    constexpr double shift_2 = rackwork::profile_shift_sum<double>({.normal_module = nominal_module,
                                                                    .pinion_teeth = 19,
                                                                    .wheel_teeth = 57,
                                                                    .helix_angle = rackwork::deg(15.0)},
                                                                   99.0) - shift_1;
    rackwork::gear_parameters<T> p;
    p.normal_module = T(nominal_module + module);
    p.teeth = 19;
    p.helix_angle = rackwork::deg(T(15 + helix));
    p.rack.pressure_angle = rackwork::deg(T(20 + pressure));
    p.profile_shift = T(shift_1);
    p.tip_alteration = T(tip_1 / (2 * nominal_module)); // a deviation of the tip diameter is twice one of the addendum
    p.thickness_allowance = T(thickness_1 - 0.075);
    p.face_width = T(28);
    const rackwork::gear<T> pinion(p);
    p.teeth = 57;
    p.helix_angle = -p.helix_angle;
    p.profile_shift = T(shift_2);
    p.tip_alteration = T(tip_2 / (2 * nominal_module));
    p.thickness_allowance = T(thickness_2 - 0.095);
    const rackwork::gear<T> wheel(p);
    const rackwork::mesh<T> pair(pinion, wheel, T(99 + centre));
    return {rackwork::span_measurement(pinion, 3),           rackwork::dimension_over_pins(pinion, T(4.5 + pins_1)),
            rackwork::span_measurement(wheel, 7),            rackwork::dimension_over_pins(wheel, T(4.5 + pins_2)),
            pair.normal_backlash(),                          pair.transverse_contact_ratio()};
}

} // namespace sensitivity
