// Example gear_pair: from what was asked to the pair.
#include "design.hpp"

#include "tools.hpp"

#include <rackwork/centre_distance.hpp>
#include <rackwork/cutter.hpp>

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
    // The customary split is for external gears.
    if (o.internal) return {0, sum};
    return rackwork::split_profile_shift(sum, o.pinion.teeth, o.wheel.teeth);
}

rackwork::gear_parameters<double> parameters_of(const options& o, const gear_options& asked, double profile_shift) {
    return {.normal_module = o.module,
            .teeth = asked.teeth,
            .helix_angle = rackwork::deg(o.helix_angle),
            .rack = o.rack,
            .profile_shift = profile_shift,
            .tip_alteration = asked.tip_alteration.value_or(0),
            .thickness_allowance = asked.allowance.computed(),
            .face_width = o.face_width,
            .tip_chamfer = asked.tip_chamfer.value_or(0),
            .tip_rounding = asked.tip_rounding.value_or(0)};
}

/// The gear, with the tip chamfer that a semi-topping tool gives it.
rackwork::gear<double> made(const options& o, const gear_options& asked, const rackwork::gear_parameters<double>& parameters) {
    const bool semi_topping = o.hob.chamfer_height && *o.hob.chamfer_height != 0;
    if (!semi_topping || parameters.kind == rackwork::gear_kind::internal || asked.cutter.teeth) return rackwork::gear<double>(parameters);
    if (asked.tip_chamfer || asked.tip_rounding) {
        throw usage_error("A semi-topping tool makes the tip chamfer itself: give no other tip edge with --hob-chamfer-height.");
    }
    return rackwork::gear<double>(rackwork::chamfered_by(hob_for(o.hob, o.rack), parameters));
}

/// The thickness allowance of either gear that makes up for backlash that is missing, half on either gear.
double thinning(double wanted, double present, double rounding, double backlash_per_allowance) {
    const double missing = wanted - present;
    if (!(missing >= -rounding)) throw usage_error("The backlash asked for is less than the pair has without thinning its teeth.");
    return -std::fmax(missing, 0) / backlash_per_allowance / 2;
}

} // namespace

rackwork::mesh<double> design_pair(const options& o) {
    const rackwork::gear_kind kind = o.internal ? rackwork::gear_kind::internal : rackwork::gear_kind::external;
    const rackwork::pair_proportions<double> proportions{.normal_module = o.module,
                                                         .pinion_teeth = o.pinion.teeth,
                                                         .wheel_teeth = o.wheel.teeth,
                                                         .helix_angle = rackwork::deg(o.helix_angle),
                                                         .normal_pressure_angle = o.rack.pressure_angle,
                                                         .wheel_kind = kind};
    const rackwork::for_both<double> shifts = profile_shifts(o, proportions);
    rackwork::gear_parameters<double> pinion = parameters_of(o, o.pinion, shifts.pinion);
    rackwork::gear_parameters<double> wheel = parameters_of(o, o.wheel, shifts.wheel);
    wheel.kind = kind;
    if (!o.internal) wheel.helix_angle = -pinion.helix_angle;

    if (o.keep_clearance) {
        const double sum = shifts.pinion + shifts.wheel;
        const double distance = o.centre_distance ? *o.centre_distance : rackwork::centre_distance(proportions, sum);
        pinion.tip_alteration = wheel.tip_alteration = rackwork::tip_alteration_for_clearance(proportions, distance, sum);
    }

    const auto meshed = [&] {
        const rackwork::gear<double> one = made(o, o.pinion, pinion);
        const rackwork::gear<double> other = made(o, o.wheel, wheel);
        const rackwork::for_both<rackwork::cutter<double>> tools{tool_for(one, o.pinion, o.hob), tool_for(other, o.wheel, o.hob)};
        if (o.centre_distance) return rackwork::mesh<double>(one, other, *o.centre_distance, tools);
        return rackwork::mesh<double>(one, other, tools);
    };
    if (!o.backlash) return meshed();

    // j_wt grows by 2 a / (m_n |z_1 + z_2|) for each unit by which the sum of the allowances falls (z_2 negative for an internal wheel),
    // and j_bn = j_wt cos alpha_wt cos beta_b.
    const rackwork::mesh<double> unthinned = meshed();
    const double distance = unthinned.centre_distance();
    const double teeth = std::fabs(proportions.sum_of_teeth());
    const double per_allowance = 2 * distance / (o.module * teeth) * cos(unthinned.working_pressure_angle()) *
                                 cos(unthinned.pinion().base_helix_angle());
    const double rounding = 64 * std::numeric_limits<double>::epsilon() * distance;
    pinion.thickness_allowance = wheel.thickness_allowance =
        thinning(*o.backlash, unthinned.normal_backlash(), rounding, per_allowance);
    return meshed();
}

rackwork::rack_mesh<double> design_rack_pair(const options& o) {
    rackwork::gear_parameters<double> pinion = parameters_of(o, o.pinion, o.pinion.profile_shift.value_or(0));
    rackwork::rack_parameters<double> rack{.profile = o.rack,
                                           .thickness_allowance = o.mating_rack.allowance.computed(),
                                           .face_width = o.face_width,
                                           .datum_height = o.mating_rack.datum_height.value_or(0)};
    const auto meshed = [&] {
        const rackwork::gear<double> one = made(o, o.pinion, pinion);
        const rackwork::generated_root<double> root(one, tool_for(one, o.pinion, o.hob));
        return o.mating_rack.pinion_height ? rackwork::rack_mesh<double>(one, rack, *o.mating_rack.pinion_height, root)
                                           : rackwork::rack_mesh<double>(one, rack, root);
    };
    if (!o.backlash) return meshed();

    // j_bn grows by cos alpha_n for each unit by which the sum of the allowances falls.
    const rackwork::rack_mesh<double> unthinned = meshed();
    const double rounding = 64 * std::numeric_limits<double>::epsilon() * unthinned.pinion().tip_diameter();
    pinion.thickness_allowance = rack.thickness_allowance =
        thinning(*o.backlash, unthinned.normal_backlash(), rounding, cos(o.rack.pressure_angle));
    return meshed();
}

} // namespace gear_pair
