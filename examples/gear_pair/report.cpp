// Example gear_pair: what it prints.
#include "report.hpp"

#include <rackwork/findings.hpp>

#include <algorithm>
#include <charconv>
#include <ostream>
#include <string>
#include <string_view>

namespace gear_pair {

namespace {

std::string text_of(double value, std::chars_format format, int precision) {
    char digits[64];
    return {digits, std::to_chars(digits, digits + sizeof digits, value, format, precision).ptr};
}

/// A number as a drawing states it; a rounded zero loses its sign.
std::string rounded(double value, int decimals) {
    std::string text = text_of(value, std::chars_format::fixed, decimals);
    if (text.find_first_not_of("-0.") == std::string::npos && text.front() == '-') text.erase(0, 1);
    return text;
}

std::string padded_left(const std::string& text, std::size_t width) {
    return std::string(width > text.size() ? width - text.size() : 0, ' ') + text;
}
std::string padded_right(const std::string& text, std::size_t width) {
    return text + std::string(width > text.size() ? width - text.size() : 0, ' ');
}

/// Rows of item, symbol, a cell for each gear, unit.
class table {
public:
    table(std::ostream& out, const sheet& s, bool inch) : out_(out), sheet_(s), decimals_(inch ? 5 : 4) {}

    void heading(const std::string& title) {
        out_ << '\n' << title << '\n' << std::string(title.size(), '-') << '\n';
    }
    void columns() { row("", "", "pinion", "wheel", ""); }
    void row(const std::string& item, const std::string& symbol, const std::string& pinion, const std::string& wheel,
             const std::string& unit) {
        std::string line = padded_right(item, 39) + ' ' + padded_right(symbol, 9) + padded_left(pinion, 12) +
                           padded_left(wheel, 13) + "  " + unit;
        line.erase(line.find_last_not_of(' ') + 1);
        out_ << line << '\n';
    }
    /// The value of that name for either gear.
    void both(const std::string& item, const std::string& symbol, const std::string& name) {
        const named_value* of_pinion = sheet_.find("pinion." + name);
        const named_value* of_wheel = sheet_.find("wheel." + name);
        const named_value* any = of_pinion != nullptr ? of_pinion : of_wheel;
        if (any != nullptr) row(item, symbol, cell(of_pinion), cell(of_wheel), any->unit == "1" ? "" : any->unit);
    }
    /// The value of that full name, in the last column.
    void one(const std::string& item, const std::string& symbol, const std::string& name) {
        const named_value* v = sheet_.find(name);
        if (v != nullptr) row(item, symbol, "", cell(v), v->unit == "1" ? "" : v->unit);
    }

private:
    std::string cell(const named_value* v) const {
        if (v == nullptr) return "-";
        const bool count = v->name.ends_with(".teeth") || v->name.ends_with(".teeth_spanned");
        return rounded(v->value, count ? 0 : decimals_);
    }

    std::ostream& out_;
    const sheet& sheet_;
    int decimals_;
};

std::string hand_of(const rackwork::gear<double>& g) {
    if (g.helix_angle().rad() == 0) return "spur";
    return g.helix_angle().rad() > 0 ? "right" : "left";
}

std::string rack_text(const options& o) {
    const auto factor = [](double value) { return rounded(value, 3); };
    return o.rack_name + ": addendum " + factor(o.rack.addendum) + ", dedendum " + factor(o.rack.dedendum) + ", fillet radius " +
           factor(o.rack.root_fillet_radius) + " (times the module)";
}

void print_wrapped(std::ostream& out, std::string_view text, std::string_view indent) {
    constexpr std::size_t width = 84;
    while (!text.empty()) {
        std::size_t length = std::min(text.size(), width);
        if (length < text.size()) {
            const std::size_t space = text.rfind(' ', length);
            if (space != std::string_view::npos && space > 0) length = space;
        }
        out << indent << text.substr(0, length) << '\n';
        text.remove_prefix(std::min(text.size(), length + 1));
    }
}

void print_finding(std::ostream& out, const rackwork::finding<double>& f, int decimals) {
    const char* const severities[] = {"note", "warning", "fault"};
    const char* const subjects[] = {"gear", "pinion", "wheel", "pair"};
    std::string name = f.quantity;
    std::replace(name.begin(), name.end(), '_', ' ');
    out << severities[static_cast<int>(f.severity)] << ", " << subjects[static_cast<int>(f.subject)] << ": " << name << ' '
        << rounded(f.value, decimals) << ", limit " << rounded(f.limit, decimals) << '\n';
    print_wrapped(out, f.sentence, "    ");
}

rackwork::finding_list<double> all_findings(const rackwork::mesh<double>& m, const sheet& s) {
    rackwork::finding_list<double> list = rackwork::findings(m);
    const auto measured = [&](const rackwork::gear<double>& g, const std::string& owner, rackwork::finding_subject subject) {
        if (const named_value* k = s.find(owner + ".teeth_spanned")) {
            list.add(rackwork::span_findings(g, static_cast<int>(k->value)), subject);
        }
        if (const named_value* pin = s.find(owner + ".pin_diameter")) list.add(rackwork::pin_findings(g, pin->value), subject);
        if (s.find(owner + ".chordal_thickness") != nullptr) {
            list.add(rackwork::chord_findings(g, g.reference_diameter()), subject);
        }
    };
    measured(m.pinion(), "pinion", rackwork::finding_subject::pinion);
    measured(m.wheel(), "wheel", rackwork::finding_subject::wheel);
    return list;
}

} // namespace

void print_values(std::ostream& out, const sheet& s) {
    for (const named_value& v : s.values) {
        out << v.name << '\t' << text_of(v.value, std::chars_format::general, 17) << '\t' << v.unit << '\n';
    }
}

void print_report(std::ostream& out, const rackwork::mesh<double>& m, const options& o, const sheet& s) {
    table t(out, s, o.inch);

    out << "Pair of external " << (m.pinion().helix_angle().rad() == 0 ? "spur" : "helical") << " gears, "
        << m.pinion().teeth() << " : " << m.wheel().teeth() << ", "
        << (o.inch ? "lengths in inches" : "lengths in millimetres") << ", angles in degrees\n";

    t.heading("Gear data for the drawing (items of ISO 1340)");
    t.columns();
    t.both("Number of teeth", "z", "teeth");
    t.both("Normal module", "m_n", "normal_module");
    if (o.inch) {
        const std::string pitch = rounded(1 / o.module, 5);
        t.row("Normal diametral pitch", "P_n", pitch, pitch, "1/in");
    }
    t.both("Normal pressure angle", "alpha_n", "normal_pressure_angle");
    t.both("Helix angle, right hand positive", "beta", "helix_angle");
    t.row("Hand of helix", "", hand_of(m.pinion()), hand_of(m.wheel()), "");
    t.both("Lead", "p_z", "lead");
    t.both("Profile shift coefficient", "x", "profile_shift");
    t.both("Tooth thickness allowance, normal", "E_sn", "thickness_allowance");
    t.both("Normal tooth thickness at d", "s_n", "normal_tooth_thickness");
    t.both("Reference diameter", "d", "reference_diameter");
    t.both("Tip diameter", "d_a", "tip_diameter");
    t.both("Root diameter", "d_f", "root_diameter");
    t.both("Tooth depth", "h", "tooth_depth");
    t.row("Number of teeth of the mate", "", std::to_string(m.wheel().teeth()), std::to_string(m.pinion().teeth()), "");
    const named_value* centre = s.find("pair.centre_distance");
    const std::string distance = rounded(centre->value, o.inch ? 5 : 4);
    t.row("Centre distance with the mate", "a", distance, distance, centre->unit);
    out << "Basic rack " << rack_text(o) << '\n'
        << "To be added by the designer: tolerance class, limits of the sizes, material, heat treatment.\n";

    t.heading("Inspection sizes (nominal, with the thickness allowance)");
    t.columns();
    t.both("Teeth to span", "k", "teeth_spanned");
    t.both("Span measurement", "W_k", "span_measurement");
    t.both("  anvils touch at the diameter", "", "span_contact_diameter");
    t.both("  least face width for it", "", "span_face_width");
    t.both("Pin or ball diameter", "D_M", "pin_diameter");
    t.both("Dimension over two pins", "M_dR", "dimension_over_pins");
    t.both("Dimension over two balls", "M_dK", "dimension_over_balls");
    t.both("  they touch at the diameter", "", "pin_contact_diameter");
    t.both("Chordal thickness at d", "s_c", "chordal_thickness");
    t.both("Chordal height at d", "h_c", "chordal_height");
    t.both("Constant chord", "", "constant_chord_thickness");
    t.both("Height of the constant chord", "", "constant_chord_height");

    t.heading("Further sizes");
    t.columns();
    t.both("Generating profile shift coefficient", "x_E", "generating_profile_shift");
    t.both("Tip alteration coefficient", "k", "tip_alteration");
    t.both("Base diameter", "d_b", "base_diameter");
    t.both("Root diameter as generated", "d_fE", "generated_root_diameter");
    t.both("Root form diameter", "d_Ff", "root_form_diameter");
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

    t.heading("Pair");
    t.one("Gear ratio", "u", "pair.gear_ratio");
    t.one("Centre distance", "a", "pair.centre_distance");
    t.one("Reference centre distance", "a_d", "pair.reference_centre_distance");
    t.one("Sum of the profile shift coefficients", "", "pair.profile_shift_sum");
    t.one("Working transverse pressure angle", "alpha_wt", "pair.working_pressure_angle");
    t.one("Length of the path of contact", "g_alpha", "pair.length_of_path_of_contact");
    t.one("Transverse contact ratio", "eps_alpha", "pair.transverse_contact_ratio");
    t.one("Overlap ratio", "eps_beta", "pair.overlap_contact_ratio");
    t.one("Total contact ratio", "eps_gamma", "pair.total_contact_ratio");
    t.one("Circumferential backlash", "j_wt", "pair.circumferential_backlash");
    t.one("Normal backlash", "j_bn", "pair.normal_backlash");
    t.one("Radial backlash", "j_r", "pair.radial_backlash");
    t.one("Angular backlash of the pinion", "phi_j1", "pinion.angular_backlash");
    t.one("Angular backlash of the wheel", "phi_j2", "wheel.angular_backlash");

    t.heading("Findings");
    const rackwork::finding_list<double> list = all_findings(m, s);
    for (const rackwork::finding<double>& f : list) print_finding(out, f, o.inch ? 5 : 4);
    for (const std::string& remark : s.remarks) print_wrapped(out, remark, "");
    if (list.empty() && s.remarks.empty()) out << "none\n";

    t.heading("Cautions");
    print_wrapped(out,
                  "This is geometry only; no strength or load rating is implied. Loads, materials, guards and approval belong to licensed "
                  "practice and to the codes that hold where the machine is used. Check the first part before cutting a batch.",
                  "");
}

} // namespace gear_pair
