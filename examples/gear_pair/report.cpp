// Example gear_pair: what it prints.
#include "report.hpp"

#include "table.hpp"

#include <algorithm>
#include <ostream>

namespace gear_pair {

namespace {

std::string rack_text(const options& o) {
    const auto factor = [](double value) { return rounded(value, 3); };
    return o.rack_name + ": addendum " + factor(o.rack.addendum) + ", dedendum " + factor(o.rack.dedendum) + ", fillet radius " +
           factor(o.rack.root_fillet_radius) + " (times the module)";
}

/// Which allowance the sizes go with.
std::string allowance_text(const options& o) {
    const bool pinion = o.pinion.allowance.has_limits();
    const bool mate = o.toothed_rack ? o.mating_rack.allowance.has_limits() : o.wheel.allowance.has_limits();
    return pinion || mate ? "nominal, at the mean of the thickness limits" : "nominal, with the thickness allowance";
}

void print_gear_data(std::ostream& out, table& t, const options& o, const sheet& s) {
    t.heading("Gear data for the drawing (items of ISO 1340)");
    t.columns();
    t.texts("Kind", "kind");
    t.both("Normal module", "m_n", "normal_module");
    if (o.inch) {
        const std::string pitch = rounded(1 / o.module, 5);
        t.row("Normal diametral pitch", "P_n", pitch, pitch, "1/in");
    }
    t.both("Number of teeth", "z", "teeth");
    t.both("Normal pressure angle", "alpha_n", "normal_pressure_angle");
    t.both("Helix angle, right hand positive", "beta", "helix_angle");
    t.texts("Hand of helix", "hand");
    t.both("Lead", "p_z", "lead");
    t.both("Profile shift coefficient", "x", "profile_shift");
    t.both("Tooth thickness allowance, normal", "E_sn", "thickness_allowance");
    t.both(o.toothed_rack ? "Normal tooth thickness at d, datum line" : "Normal tooth thickness at d", "s_n", "normal_tooth_thickness");
    t.both("Reference diameter", "d", "reference_diameter");
    t.both("Tip diameter", "d_a", "tip_diameter");
    t.both("Root diameter", "d_f", "root_diameter");
    if (o.toothed_rack) {
        t.both("Addendum", "h_a", "addendum");
        t.both("Normal pitch", "p_n", "normal_pitch");
        t.both("Height of the datum line", "", "datum_height");
    }
    t.both("Tooth depth", "h", "tooth_depth");
    t.both("Height of the tip chamfer", "h_K", "tip_chamfer");
    t.both("  its pressure angle", "alpha_K", "tip_chamfer_angle");
    t.both("Radius of the tip rounding", "rho_a", "tip_rounding");
    t.both("Face width", "b", "face_width");
    if (!o.toothed_rack) {
        const auto teeth = [&](const char* of) { return rounded(s.find(of)->value, 0); };
        t.row("Number of teeth of the mate", "", teeth("wheel.teeth"), teeth("pinion.teeth"));
        const named_value* centre = s.find("pair.centre_distance");
        const std::string distance = rounded(centre->value, o.inch ? 5 : 4);
        t.row("Centre distance with the mate", "a", distance, distance, centre->unit);
    }
    out << "Basic rack " << rack_text(o) << '\n';
    print_wrapped(out, "Pinion made by: " + s.text("pinion.tool"));
    if (!o.toothed_rack) print_wrapped(out, "Wheel made by: " + s.text("wheel.tool"));
    if (o.internal) {
        print_wrapped(out, "Internal wheel: tooth numbers and diameters are positive; positive profile shift thickens its teeth and makes "
                           "its tip circle smaller.");
    }
    out << "To be added by the designer: material, heat treatment" << (o.tolerance_class ? "" : ", tolerance class") << ".\n";
}

void print_inspection(table& t, const options& o) {
    t.heading("Inspection sizes (" + allowance_text(o) + ")");
    t.columns();
    t.both(o.internal ? "Teeth to span (wheel: spaces)" : "Teeth to span", "k", "teeth_spanned");
    t.both("Span measurement", "W_k", "span_measurement");
    t.both("  anvils touch at the diameter", "", "span_contact_diameter");
    t.both("  least face width for it", "", "span_face_width");
    t.both("  before finishing", "", "span_before_finishing");
    t.both("Pin or ball diameter", "D_M", "pin_diameter");
    t.both("  they touch at the diameter", "", "pin_contact_diameter");
    t.both("Dimension over two pins", "M_dR", "dimension_over_pins");
    t.both("Dimension over two balls", "M_dK", "dimension_over_balls");
    t.both("Dimension between two pins", "M_dR", "dimension_between_pins");
    t.both("Dimension between two balls", "M_dK", "dimension_between_balls");
    t.both("Radial dimension over one ball", "M_rK", "radial_dimension_over_ball");
    t.both("Height over one pin", "", "height_over_pin");
    t.both(o.toothed_rack ? "Chordal thickness at d, datum line" : "Chordal thickness at d", "s_c", "chordal_thickness");
    t.both("Chordal height there", "h_c", "chordal_height");
    t.both("Constant chord", "", "constant_chord_thickness");
    t.both("Height of the constant chord", "", "constant_chord_height");
}

void print_limits(std::ostream& out, table& t, const options& o, const sheet& s) {
    t.heading("Limits and tolerances");
    const auto any = [&](const std::string& name) { return s.find("pinion." + name) != nullptr || s.find(s.mate + "." + name) != nullptr; };
    const bool thickness = any("thickness_tolerance");
    if (thickness || any("tolerance_class")) t.columns();
    if (thickness) {
        t.both("Upper thickness allowance", "E_sns", "upper_thickness_allowance");
        t.both("Lower thickness allowance", "E_sni", "lower_thickness_allowance");
        t.both("Tooth thickness tolerance", "T_sn", "thickness_tolerance");
        t.limits("Normal tooth thickness", "s_n", "normal_tooth_thickness");
        t.limits("Span measurement", "W_k", "span_measurement");
        t.limits("Over two pins", "M_dR", "dimension_over_pins");
        t.limits("Over two balls", "M_dK", "dimension_over_balls");
        t.limits("Between two pins", "M_dR", "dimension_between_pins");
        t.limits("Between two balls", "M_dK", "dimension_between_balls");
        t.limits("Radial dimension, one ball", "M_rK", "radial_dimension_over_ball");
        t.limits("Height over one pin", "", "height_over_pin");
        t.limits("Chordal thickness", "s_c", "chordal_thickness");
    }
    if (any("tolerance_class")) {
        t.both("Tolerance class, ISO 1328-1:2013", "A", "tolerance_class");
        t.both("  single pitch (either way)", "f_pT", "single_pitch_tolerance");
        t.both("  cumulative pitch", "F_pT", "cumulative_pitch_tolerance");
        t.both("  runout", "F_rT", "runout_tolerance");
        t.both("  profile, total", "F_alphaT", "profile_tolerance");
        t.both("    slope (either way)", "f_HalphaT", "profile_slope_tolerance");
        t.both("    form", "f_falphaT", "profile_form_tolerance");
        t.both("  helix, total", "F_betaT", "helix_tolerance");
        t.both("    slope (either way)", "f_HbetaT", "helix_slope_tolerance");
        t.both("    form", "f_fbetaT", "helix_form_tolerance");
    }
    t.pair_limits("Centre distance", "a", "centre_distance");
    t.pair_limits("Height of the pinion's axis", "", "pinion_height");
    t.pair_limits("Normal backlash", "j_bn", "normal_backlash");
    t.pair_limits("Circumferential backlash", "j_wt", "circumferential_backlash");
    t.one("Recommended least j_bn, ISO/TR 10064-2", "", "recommended_minimum_backlash");
    if (thickness && o.internal) print_wrapped(out, "Between the pins or balls of the internal wheel the thinnest teeth read most.");
    if (!thickness) {
        print_wrapped(out, "No thickness limits are stated: give upper and lower allowances to have those of the sizes and of the "
                           "backlash.");
    }
    if (!o.tolerance_class) out << "No flank tolerances without a tolerance class: give --tolerance-class.\n";
}

void print_further_sizes(table& t) {
    t.heading("Further sizes");
    t.columns();
    t.both("Generating profile shift coefficient", "x_E", "generating_profile_shift");
    t.both("Tip alteration coefficient", "k", "tip_alteration");
    t.both("Base diameter", "d_b", "base_diameter");
    t.both("Root diameter as generated", "d_fE", "generated_root_diameter");
    t.both("Root form diameter", "d_Ff", "root_form_diameter");
    t.texts("Undercut", "undercut");
    t.both("Tip form diameter", "d_Fa", "tip_form_diameter");
    t.both("Active root diameter", "d_Nf", "active_root_diameter");
    t.both("Active tip diameter", "d_Na", "active_tip_diameter");
    t.both("Working pitch diameter", "d_w", "working_diameter");
    t.both("Tip thickness, normal", "s_an", "normal_tip_thickness");
    t.both("Diameter of the pointed tooth", "", "pointed_tip_diameter");
    t.both("Bottom clearance at the mate's root", "c", "bottom_clearance");
    t.both("Transverse pressure angle", "alpha_t", "transverse_pressure_angle");
    t.both("Transverse module", "m_t", "transverse_module");
    t.both("Normal base pitch", "p_bn", "normal_base_pitch");
    t.both("Area of the transverse section", "A", "transverse_section_area");
    t.both("Area within the internal teeth", "", "area_within_teeth");
}

void print_pair(table& t, const options& o) {
    t.heading("Pair");
    t.one("Gear ratio", "u", "gear_ratio");
    t.one("Centre distance", "a", "centre_distance");
    t.one("Reference centre distance", "a_d", "reference_centre_distance");
    t.one("Sum of the profile shift coefficients", "", "profile_shift_sum");
    t.one(o.mating_rack.datum_height ? "Pinion's axis over the mounting face" : "Pinion's axis over the datum line", "", "pinion_height");
    if (o.mating_rack.datum_height) t.one("Pinion's axis over the datum line", "", "distance_to_datum_line");
    t.one("Travel per turn of the pinion", "", "travel_per_turn");
    t.one("Travel per degree", "", "travel_per_degree");
    t.one("Working transverse pressure angle", "alpha_wt", "working_pressure_angle");
    t.one("Length of the path of contact", "g_alpha", "length_of_path_of_contact");
    t.one("Transverse contact ratio", "eps_alpha", "transverse_contact_ratio");
    t.one("Overlap ratio", "eps_beta", "overlap_contact_ratio");
    t.one("Total contact ratio", "eps_gamma", "total_contact_ratio");
    t.one(o.toothed_rack ? "Backlash along the travel" : "Circumferential backlash", "j_wt", "circumferential_backlash");
    t.one("Normal backlash", "j_bn", "normal_backlash");
    t.one("Radial backlash", "j_r", "radial_backlash");
    t.both("Angular backlash", "phi_j", "angular_backlash");
}

void print_finding(std::ostream& out, const rackwork::finding<double>& f, const std::string& mate, int decimals) {
    const char* const severities[] = {"note", "warning", "fault"};
    const std::string subjects[] = {"gear", "pinion", mate, "pair"};
    std::string name = f.quantity;
    std::replace(name.begin(), name.end(), '_', ' ');
    out << severities[static_cast<int>(f.severity)] << ", " << subjects[static_cast<int>(f.subject)] << ": " << name << ' '
        << rounded(f.value, decimals) << ", limit " << rounded(f.limit, decimals) << '\n';
    print_wrapped(out, f.sentence, "    ");
}

} // namespace

void print_values(std::ostream& out, const sheet& s) {
    for (const named_value& v : s.values) out << v.name << '\t' << exact(v.value) << '\t' << v.unit << '\n';
}

void print_report(std::ostream& out, const options& o, const sheet& s) {
    const int decimals = o.inch ? 5 : 4;
    table t(out, s, decimals);
    const std::string teeth = rounded(s.find("pinion.teeth")->value, 0);
    const std::string helical = s.text("pinion.hand") == "spur" ? "spur" : "helical";
    if (o.toothed_rack) {
        out << "External " << helical << " pinion of " << teeth << " teeth on a toothed rack";
    } else {
        out << (o.internal ? "Internal " + helical + " gear pair, " : "Pair of external " + helical + " gears, ") << teeth << " : "
            << rounded(s.find("wheel.teeth")->value, 0);
    }
    out << ", lengths in " << (o.inch ? "inches" : "millimetres") << ", angles in degrees\n";
    print_gear_data(out, t, o, s);
    print_inspection(t, o);
    print_limits(out, t, o, s);
    print_further_sizes(t);
    print_pair(t, o);

    t.heading("Findings");
    for (const rackwork::finding<double>& f : s.findings) print_finding(out, f, s.mate, decimals);
    for (const std::string& remark : s.remarks) print_wrapped(out, remark);
    if (s.findings.empty() && s.remarks.empty()) out << "none\n";

    t.heading("Cautions");
    print_wrapped(out,
                  "This is geometry only; no strength or load rating is implied. Loads, materials, guards and approval belong to licensed "
                  "practice and to the codes that hold where the machine is used. Check the first part before cutting a batch.");
}

} // namespace gear_pair
