// Example gear_pair: from what was asked to the pair.
#include "design.hpp"

#include <rackwork/centre_distance.hpp>

#include <cmath>
#include <limits>

namespace gear_pair {

namespace {

/// Shifts that are given stand; those that are not follow from the centre distance, or are zero.
rackwork::for_both<double> profile_shifts(const options& o, const rackwork::pair_proportions<double>& proportions) {
    const std::optional<double>& pinion = o.pinion.profile_shift;
    const std::optional<double>& wheel = o.wheel.profile_shift;
    if (!o.centre_distance || (pinion && wheel)) return {pinion.value_or(0), wheel.value_or(0)};
    const double sum = rackwork::profile_shift_sum(proportions, *o.centre_distance);
    if (pinion) return {*pinion, sum - *pinion};
    if (wheel) return {sum - *wheel, *wheel};
    return rackwork::split_profile_shift(sum, o.pinion.teeth, o.wheel.teeth);
}

} // namespace

rackwork::mesh<double> design_pair(const options& o) {
    const rackwork::pair_proportions<double> proportions{.normal_module = o.module,
                                                         .pinion_teeth = o.pinion.teeth,
                                                         .wheel_teeth = o.wheel.teeth,
                                                         .helix_angle = rackwork::deg(o.helix_angle),
                                                         .normal_pressure_angle = o.rack.pressure_angle};
    const rackwork::for_both<double> shifts = profile_shifts(o, proportions);

    rackwork::gear_parameters<double> pinion{.normal_module = o.module,
                                             .teeth = o.pinion.teeth,
                                             .helix_angle = rackwork::deg(o.helix_angle),
                                             .rack = o.rack,
                                             .profile_shift = shifts.pinion,
                                             .thickness_allowance = o.pinion.thickness_allowance.value_or(0),
                                             .face_width = o.face_width};
    rackwork::gear_parameters<double> wheel = pinion;
    wheel.teeth = o.wheel.teeth;
    wheel.helix_angle = -pinion.helix_angle;
    wheel.profile_shift = shifts.wheel;
    wheel.thickness_allowance = o.wheel.thickness_allowance.value_or(0);

    if (o.keep_clearance) {
        const double sum = shifts.pinion + shifts.wheel;
        const double distance = o.centre_distance ? *o.centre_distance : rackwork::centre_distance(proportions, sum);
        pinion.tip_alteration = wheel.tip_alteration = rackwork::tip_alteration_for_clearance(proportions, distance, sum);
    }

    const auto meshed = [&] {
        const rackwork::gear<double> one(pinion);
        const rackwork::gear<double> other(wheel);
        return o.centre_distance ? rackwork::mesh<double>(one, other, *o.centre_distance) : rackwork::mesh<double>(one, other);
    };
    if (!o.backlash) return meshed();

    // What is missing is thinned away, half from either gear: j_wt grows by 2 a / (m_n (z_1 + z_2)) for each unit by which the sum of the
    // allowances falls, and j_bn = j_wt cos alpha_wt cos beta_b.
    const rackwork::mesh<double> unthinned = meshed();
    const double missing = *o.backlash - unthinned.normal_backlash();
    const double rounding = 64 * std::numeric_limits<double>::epsilon() * unthinned.centre_distance();
    if (!(missing >= -rounding)) {
        throw usage_error("The backlash asked for is less than the pair has without thinning its teeth.");
    }
    const double per_allowance = 2 * unthinned.centre_distance() / (o.module * (o.pinion.teeth + o.wheel.teeth)) *
                                 cos(unthinned.working_pressure_angle()) * cos(unthinned.pinion().base_helix_angle());
    pinion.thickness_allowance = wheel.thickness_allowance = -std::fmax(missing, 0) / per_allowance / 2;
    return meshed();
}

} // namespace gear_pair
