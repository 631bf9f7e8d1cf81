// Example choose_pair: the data table of the finished pair.
#include "table.hpp"

#include <rackwork/findings.hpp>
#include <rackwork/interference_findings.hpp>
#include <rackwork/measure/pins.hpp>
#include <rackwork/measure/span.hpp>

#include <cstdio>
#include <string>

namespace choose_pair {

using namespace rackwork;

namespace {

std::string number(double value, int decimals) {
    char text[64];
    std::snprintf(text, sizeof text, "%.*f", decimals, value + 0.0); // no negative zero
    return text;
}

void row(std::ostream& out, const std::string& what, const std::string& pinion, const std::string& wheel) {
    const auto padded = [](const std::string& text, std::size_t width, bool right) {
        const std::string blanks(text.size() < width ? width - text.size() : 0, ' ');
        return right ? blanks + text : text + blanks;
    };
    out << padded(what, 46, false) << padded(pinion, 14, true) << padded(wheel, 14, true) << '\n';
}

} // namespace

void write_table(std::ostream& out, const mesh<double>& pair) {
    const gear<double>& pinion = pair.pinion();
    const gear<double>& wheel = pair.wheel();
    const auto lengths = [&](const char* what, double one, double other, int decimals = 3) {
        row(out, what, number(one, decimals), number(other, decimals));
    };
    out << "Data of the pair, lengths in mm\n\n";
    row(out, "", "pinion", "wheel");
    row(out, "number of teeth, z", std::to_string(pinion.teeth()), std::to_string(wheel.teeth()));
    lengths("normal module, m_n", pinion.normal_module(), wheel.normal_module());
    lengths("normal pressure angle, alpha_n (deg)", pinion.normal_pressure_angle().deg(), wheel.normal_pressure_angle().deg(), 2);
    lengths("helix angle, beta (deg)", pinion.helix_angle().deg(), wheel.helix_angle().deg(), 3);
    row(out, "basic rack", "ISO 53 A", "ISO 53 A");
    lengths("profile shift coefficient, x", pinion.profile_shift(), wheel.profile_shift(), 4);
    lengths("tip alteration coefficient, k", pinion.parameters().tip_alteration, wheel.parameters().tip_alteration, 4);
    lengths("face width, b", pinion.parameters().face_width, wheel.parameters().face_width, 1);
    lengths("reference diameter, d", pinion.reference_diameter(), wheel.reference_diameter());
    lengths("base diameter, d_b", pinion.base_diameter(), wheel.base_diameter());
    lengths("tip diameter, d_a", pinion.tip_diameter(), wheel.tip_diameter());
    lengths("root diameter as generated, d_fE", pinion.generated_root_diameter(), wheel.generated_root_diameter());
    lengths("root form diameter, d_Ff", pair.root_form_diameter().pinion, pair.root_form_diameter().wheel);
    lengths("active root diameter, d_Nf", pair.active_root_diameter().pinion, pair.active_root_diameter().wheel);
    lengths("working pitch diameter, d_w", pair.working_diameter().pinion, pair.working_diameter().wheel);
    lengths("normal tip thickness, s_an", pinion.normal_tooth_thickness(pinion.tip_diameter()),
            wheel.normal_tooth_thickness(wheel.tip_diameter()));
    lengths("thickness allowance, E_sn", pinion.parameters().thickness_allowance, wheel.parameters().thickness_allowance, 4);
    const int of_pinion = recommended_teeth_spanned(pinion);
    const int of_wheel = recommended_teeth_spanned(wheel);
    row(out, "teeth spanned, k", std::to_string(of_pinion), std::to_string(of_wheel));
    lengths("span with the allowance, W_k", span_measurement(pinion, of_pinion), span_measurement(wheel, of_wheel));
    const double pin_of_pinion = nearest_preferred_pin_diameter(ideal_pin_diameter(pinion));
    const double pin_of_wheel = nearest_preferred_pin_diameter(ideal_pin_diameter(wheel));
    lengths("ball diameter, D_M", pin_of_pinion, pin_of_wheel);
    lengths("dimension over balls, M_dK", dimension_over_balls(pinion, pin_of_pinion), dimension_over_balls(wheel, pin_of_wheel));

    out << "\ncentre distance " << number(pair.centre_distance(), 3) << ", working pressure angle "
        << number(pair.working_pressure_angle().deg(), 4) << " deg, ratio " << number(pair.gear_ratio(), 5) << '\n';
    out << "transverse contact ratio " << number(pair.transverse_contact_ratio(), 3) << ", bottom clearance "
        << number(pair.bottom_clearance().pinion, 3) << " and " << number(pair.bottom_clearance().wheel, 3) << '\n';
    out << "normal backlash " << number(pair.normal_backlash(), 3) << ", circumferential " << number(pair.circumferential_backlash(), 3)
        << '\n';
    finding_list<double> list = findings(pair);
    for (const finding<double>& f : interference_findings(pair)) list.add(f);
    if (list.empty()) out << "No findings.\n";
    for (const finding<double>& f : list) out << "Finding: " << f.sentence << '\n';
}

} // namespace choose_pair
