// Example choose_pair: what a candidate is worth when its shifts have been split.
#include "judge.hpp"

#include <rackwork/analysis/contact.hpp>
#include <rackwork/analysis/tooth_root.hpp>
#include <rackwork/design/preferred_sizes.hpp>

#include <algorithm>

namespace choose_pair {

using namespace rackwork;

finding_limits<double> limits_of(const wish& w) { return {.tip_thickness = w.least_tip, .contact_ratio = w.least_contact_ratio}; }

std::optional<judged> judge(const pair_candidate<double>& candidate, const wish& w) {
    const shiftable_pair<double> blank{.normal_module = candidate.normal_module,
                                       .pinion_teeth = candidate.pinion_teeth,
                                       .wheel_teeth = candidate.wheel_teeth,
                                       .helix_angle = candidate.helix_angle,
                                       .face_width = w.face_width};
    if (shift_line<double>::check(blank, candidate.profile_shift_sum)) return std::nullopt;
    const shift_line<double> line(blank, candidate.profile_shift_sum, limits_of(w));
    if (line.permissible().empty()) return std::nullopt;

    judged j{.candidate = candidate, .blank = blank, .shifts = split_by(line, equal_sliding{})};
    const mesh<double> pair = blank.with(j.shifts.profile_shift);
    const path_of_contact<double> path(pair);
    const for_both<double> tips = line.tip_thickness(j.shifts.profile_shift.pinion);
    const auto stress = [](const gear<double>& g) {
        const tooth_root<double> root = root_under_tip_load(g);
        return root.form_factor() * root.stress_correction_factor() / g.normal_module();
    };
    j.contact_ratio = pair.transverse_contact_ratio();
    j.least_tip = std::min(tips.pinion, tips.wheel);
    j.worst_sliding = std::min(path.point_a().specific_sliding().pinion, path.point_e().specific_sliding().wheel);
    j.root_stress = std::max(stress(pair.pinion()), stress(pair.wheel()));
    return j;
}

bool is_preferred(const judged& j) {
    const auto& series = iso_54_series_1<double>;
    return std::find(series.begin(), series.end(), j.candidate.normal_module) != series.end();
}

std::string objection(const judged& j, const wish& w) {
    if (j.worst_sliding < w.worst_sliding) return "slides too much";
    if (!j.candidate.has_hunting_teeth()) return "lets the same teeth meet too often";
    return "";
}

mesh<double> finished(const judged& j, const wish& w) {
    for_both<gear_parameters<double>> p = j.blank.parameters(j.shifts.profile_shift);
    const mesh<double> tight = j.blank.with(j.shifts.profile_shift);
    // Normal backlash j_bn = j_wt cos alpha_wt cos beta_b, and j_wt = 2 a / (m_n (z_1 + z_2)) for each unit that the teeth are thinned.
    const double per_allowance = 2 * w.centre_distance / (j.blank.normal_module * (j.blank.pinion_teeth + j.blank.wheel_teeth)) *
                                 cos(tight.working_pressure_angle()) * cos(tight.pinion().base_helix_angle());
    p.pinion.thickness_allowance = p.wheel.thickness_allowance = -w.backlash * j.blank.normal_module / per_allowance / 2;
    return mesh<double>(gear<double>(p.pinion), gear<double>(p.wheel), w.centre_distance);
}

} // namespace choose_pair
