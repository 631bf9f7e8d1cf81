// Example gear_pair: fills the sheet of a pair of gears.
#include "values.hpp"

#include "gear_values.hpp"
#include "limits.hpp"

#include <rackwork/findings.hpp>
#include <rackwork/interference_findings.hpp>

namespace gear_pair {

namespace {

void add_pair(sheet_maker& to, const rackwork::mesh<double>& m) {
    to.start("pair");
    to.size("centre_distance", m.centre_distance());
    to.size("reference_centre_distance", m.reference_centre_distance());
    to.number("gear_ratio", m.gear_ratio());
    to.number("profile_shift_sum", m.pinion().profile_shift() + m.wheel().profile_shift());
    to.turn("working_pressure_angle", m.working_pressure_angle());
    to.size("length_of_path_of_contact", m.length_of_path_of_contact());
    to.number("transverse_contact_ratio", m.transverse_contact_ratio());
    to.measurement("overlap ratio", [&] {
        to.number("overlap_contact_ratio", m.overlap_contact_ratio());
        to.number("total_contact_ratio", m.total_contact_ratio());
    });
    to.size("circumferential_backlash", m.circumferential_backlash());
    to.size("normal_backlash", m.normal_backlash());
    to.measurement("radial backlash", [&] {
        to.size("radial_backlash", m.radial_backlash());
        to.size("double_flank_centre_distance", m.double_flank_centre_distance());
    });
    to.size("approximate_radial_backlash", m.approximate_radial_backlash());
}

} // namespace

sheet make_sheet(const rackwork::mesh<double>& m, const options& o) {
    sheet result;
    sheet_maker to(result, o.unit());
    to.findings(rackwork::findings(m));
    to.findings(rackwork::interference_findings(m));

    const auto add = [&](const std::string& owner, const rackwork::gear<double>& g, const rackwork::generated_root<double>& root,
                         const gear_options& asked, rackwork::finding_subject subject, const auto& of) {
        to.start(owner);
        add_gear(to, g, root, asked, o);
        to.size("working_diameter", of(m.working_diameter()));
        to.size("active_tip_diameter", of(m.active_tip_diameter()));
        to.size("active_root_diameter", of(m.active_root_diameter()));
        to.size("bottom_clearance", of(m.bottom_clearance()));
        to.turn("angular_backlash", of(m.angular_backlash()));
        add_inspection(to, g, root, asked, o, subject);
        add_size_limits(to, g, asked.allowance);
        if (o.tolerance_class) add_flank_tolerances(to, g, *o.tolerance_class, o.inch);
    };
    add("pinion", m.pinion(), m.pinion_root(), o.pinion, rackwork::finding_subject::pinion, [](const auto& v) { return v.pinion; });
    add("wheel", m.wheel(), m.wheel_root(), o.wheel, rackwork::finding_subject::wheel, [](const auto& v) { return v.wheel; });
    add_pair(to, m);
    add_backlash_limits(to, m, o);
    return result;
}

} // namespace gear_pair
