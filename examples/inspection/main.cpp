// Example inspection: what the inspector read in; tooth thickness, deviation and verdict out.
#include "options.hpp"

#include <rackwork/findings.hpp>
#include <rackwork/tolerance/flank.hpp>
#include <rackwork/tolerance/thickness.hpp>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <functional>
#include <numeric>

namespace {

using namespace inspection;
using limits = rackwork::size_limits<double>;

/// One way of measuring the gear: its name, its limits, and the tooth thickness that a reading stands for.
struct measurement {
    std::string name;
    limits size;
    std::function<double(double)> thickness_from;
    rackwork::finding_list<double> findings;
};

std::string number(double value, int decimals, bool with_sign = false) {
    char text[64];
    std::snprintf(text, sizeof text, with_sign ? "%+.*f" : "%.*f", decimals, value);
    return text;
}

measurement with_span(const rackwork::gear<double>& g, const options& o) {
    const int k = o.teeth_spanned > 0 ? o.teeth_spanned : rackwork::recommended_teeth_spanned(g);
    return {.name = "span over " + std::to_string(k) + (g.is_internal() ? " spaces" : " teeth"),
            .size = span_limits(g, k, o.allowances),
            .thickness_from = [=](double size) { return normal_tooth_thickness_from_span(g, k, size); },
            .findings = rackwork::span_findings(g, k)};
}

measurement with_pins(const rackwork::gear<double>& g, const options& o) {
    const double d = o.pin_diameter > 0 ? o.pin_diameter : rackwork::nearest_preferred_pin_diameter(ideal_pin_diameter(g));
    const bool balls = o.measured_with == instrument::balls;
    const std::string name = (g.is_internal() ? "between " : "over ") + std::string(balls ? "balls " : "pins ") + number(d, 3);
    if (balls) {
        return {.name = name,
                .size = g.is_internal() ? dimension_between_balls_limits(g, d, o.allowances) : dimension_over_balls_limits(g, d, o.allowances),
                .thickness_from = [=](double size) { return normal_tooth_thickness_from_balls(g, d, size); },
                .findings = rackwork::pin_findings(g, d)};
    }
    return {.name = name,
            .size = g.is_internal() ? dimension_between_pins_limits(g, d, o.allowances) : dimension_over_pins_limits(g, d, o.allowances),
            .thickness_from = [=](double size) { return normal_tooth_thickness_from_pins(g, d, size); },
            .findings = rackwork::pin_findings(g, d)};
}

void row(const char* item, const std::string& lower, const std::string& upper) {
    std::printf("  %-34s %12s %12s\n", item, lower.c_str(), upper.c_str());
}

/// One line for a reading; true if it is within the limits.
bool judge(const char* label, double reading, const measurement& m, const rackwork::gear<double>& g, const options& o) {
    const double thickness = m.thickness_from(reading);
    const double allowance = thickness_allowance_of(g, thickness);
    if (std::abs(allowance) > g.normal_module() / 2) {
        throw usage_error("A reading of " + number(reading, 3) + " cannot be the " + m.name + ": " + number(m.size.lower, 3) + " to " +
                          number(m.size.upper, 3) + " is right.");
    }
    const auto verdict = judge_thickness(allowance, o.allowances);
    const char* const words[] = {"good", "TOO THICK: cut deeper", "TOO THIN: reject"};
    std::printf("  %-10s %12s %12s %12s   %s\n", label, number(reading, 3).c_str(), number(thickness, 4).c_str(), number(allowance, 4, true).c_str(),
                words[static_cast<int>(verdict)]);
    return verdict == rackwork::thickness_verdict::within;
}

void print_flank_tolerances(const rackwork::gear<double>& g, int tolerance_class) {
    std::printf("\nFlank tolerances, class %d of ISO 1328-1:2013, micrometres\n", tolerance_class);
    const auto toothing = toothing_of(g);
    const auto pitch = pitch_tolerances_in_micrometres(toothing, tolerance_class);
    const auto profile = profile_tolerances_in_micrometres(toothing, tolerance_class);
    std::printf("  pitch     single f_pT %-8g  cumulative F_pT %-8g  runout F_rT %g\n", pitch.single_pitch, pitch.cumulative_pitch, pitch.runout);
    std::printf("  profile   slope f_HaT %-8g  form f_faT %-13g  total F_aT %g\n", profile.slope, profile.form, profile.total);
    if (g.parameters().face_width == 0) return; // not stated: nothing to say about the helix
    const auto helix = helix_tolerances_in_micrometres(toothing, tolerance_class);
    std::printf("  helix     slope f_HbT %-8g  form f_fbT %-13g  total F_bT %g\n", helix.slope, helix.form, helix.total);
}

/// Prints everything; true if all readings are within the limits.
bool inspect(const options& o) {
    const rackwork::gear<double> g{o.gear};
    const measurement m = o.measured_with == instrument::span ? with_span(g, o) : with_pins(g, o);
    std::printf("%s: module %g, %d %steeth, helix %g deg, profile shift %g\n", o.drawing.c_str(), g.normal_module(), g.teeth(),
                g.is_internal() ? "internal " : "", g.helix_angle().deg(), g.profile_shift());

    std::printf("\nLimits, millimetres %27s %12s\n", "lower", "upper");
    const limits thickness = normal_tooth_thickness_limits(g, o.allowances);
    row("tooth thickness allowance E_sn", number(o.allowances.lower, 4, true), number(o.allowances.upper, 4, true));
    row("normal tooth thickness s_n", number(thickness.lower, 4), number(thickness.upper, 4));
    row(m.name.c_str(), number(m.size.lower, 4), number(m.size.upper, 4));
    for (const auto& f : m.findings) std::printf("  ! %s\n", f.sentence);
    if (o.tolerance_class != 0) print_flank_tolerances(g, o.tolerance_class);
    if (o.readings.empty()) return true;

    std::printf("\nMeasured, millimetres\n  %-10s %12s %12s %12s\n", "", "reading", "thickness", "allowance");
    bool good = true;
    for (std::size_t i = 0; i < o.readings.size(); ++i) good = judge(("place " + std::to_string(i + 1)).c_str(), o.readings[i], m, g, o) && good;
    if (o.readings.size() > 1) {
        const double mean = std::accumulate(o.readings.begin(), o.readings.end(), 0.0) / static_cast<double>(o.readings.size());
        const auto [least, greatest] = std::minmax_element(o.readings.begin(), o.readings.end());
        judge("mean", mean, m, g, o);
        std::printf("  variation of the readings: %s\n", number(*greatest - *least, 3).c_str());
    }
    std::printf("\nVerdict: %s.\n", good ? "the teeth are within their limits" : "the teeth are OUT OF their limits");
    return good;
}

} // namespace

int main(int argument_count, char** arguments) {
    try {
        const bool good = inspect(read_options(argument_count, arguments));
        std::printf("\nThis is geometry only: whether the gear may go into a machine is for its designer to say.\n");
        if (std::fflush(stdout) != 0 || std::ferror(stdout) != 0) throw usage_error("The output could not be written.");
        return good ? EXIT_SUCCESS : EXIT_FAILURE;
    } catch (const std::exception& error) {
        std::fprintf(stderr, "inspection: %s\n", error.what());
        return 2;
    }
}
