// Example choose_pair: from "ratio 3.07 within 0.5 %, centre distance 92 mm, steel gears of ordinary quality" to a pair that can be drawn,
// cut and measured, with the reasons for it.
//
// It is the last stage of a hand-cranked grain mill. The files are written into the current directory.
#include "judge.hpp"
#include "table.hpp"

#include <rackwork/design/preferred_sizes.hpp>
#include <rackwork/exchange/plot_contact.hpp>
#include <rackwork/exchange/plot_design.hpp>
#include <rackwork/exchange/plot_svg.hpp>
#include <rackwork/exchange/svg.hpp>

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <fstream>
#include <functional>
#include <iostream>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

namespace {

using namespace rackwork;
using namespace choose_pair;

void write(const char* name, const std::function<void(std::ostream&)>& content) {
    std::ofstream file(name, std::ios::binary);
    if (!file) throw std::runtime_error(std::string("The file ") + name + " cannot be written.");
    content(file);
    file.flush();
    if (!file) throw std::runtime_error(std::string("The file ") + name + " is not complete.");
}

/// Every pair that fits, judged; the best first. Those that something speaks against come last, before them modules of series II, and
/// otherwise the strongest roots come first.
std::vector<judged> ranked_pairs(const wish& w, search_progress& at_end) {
    const pair_need<double> need{.ratio = ratio_within(w.ratio, w.ratio_tolerance),
                                 .centre_distance = {w.centre_distance, w.centre_distance},
                                 .modules = iso_54_both_series<double>,
                                 .pinion_teeth = {12, 60},
                                 .wheel_teeth = {30, 200},
                                 .profile_shift_sum = {-0.4, 1.2}};
    const auto refused = [&](const judged& j) { return objection(j, w).empty() ? 0 : 1; };
    const auto root_stress = [](const judged& j) { return j.root_stress; };
    const auto second_choice = [](const judged& j) { return is_preferred(j) ? 0 : 1; };
    keep_best<judged, decltype(refused), decltype(second_choice), decltype(root_stress)> best(8, refused, second_choice, root_stress);
    const auto all = pair_search(need);
    auto at = all.begin();
    for (; at != all.end(); ++at) {
        if (const std::optional<judged> j = judge(*at, w)) best.offer(*j);
    }
    at_end = at.progress();
    return best.ranked();
}

void print_candidates(const std::vector<judged>& pairs, const wish& w) {
    std::printf("  %6s %9s %8s %9s %9s %8s %8s %10s\n", "module", "teeth", "ratio", "x1", "x2", "contact", "sliding", "root 1/mm");
    for (const judged& j : pairs) {
        const pair_candidate<double>& c = j.candidate;
        std::printf("  %6g %4d /%3d %8.4f %9.4f %9.4f %8.3f %8.2f %10.3f  %s\n", c.normal_module, c.pinion_teeth, c.wheel_teeth,
                    c.gear_ratio(), j.shifts.profile_shift.pinion, j.shifts.profile_shift.wheel, j.contact_ratio, j.worst_sliding,
                    j.root_stress,
                    !objection(j, w).empty() ? objection(j, w).c_str()
                    : is_preferred(j)        ? ""
                                             : "module of series II");
    }
}

void explain(const std::vector<judged>& pairs, const wish& w) {
    const judged& chosen = pairs.front();
    const pair_candidate<double>& c = chosen.candidate;
    std::printf("\nThe choice: module %g, %d and %d teeth.\n\n", c.normal_module, c.pinion_teeth, c.wheel_teeth);
    std::printf("- Its ratio is %.4f, %.2f %% off %.2f where %.1f %% are allowed.\n", c.gear_ratio(),
                100 * std::fabs(c.gear_ratio() / w.ratio - 1), w.ratio, 100 * w.ratio_tolerance);
    std::printf("- Of the pairs that nothing speaks against%s it has the strongest roots for their geometry: Y_Fa Y_Sa / m is\n"
                "  %.3f 1/mm for the weaker gear. Coarse teeth also suffer least from the pitch errors of ordinary quality.\n",
                is_preferred(chosen) ? " and that are cut with tools of series I" : "", chosen.root_stress);
    for (const judged& other : pairs) {
        if (other.root_stress >= chosen.root_stress) continue;
        const std::string why = objection(other, w);
        std::printf("- Module %g with %d and %d teeth would have stronger roots (%.3f 1/mm), but it %s.\n", other.candidate.normal_module,
                    other.candidate.pinion_teeth, other.candidate.wheel_teeth, other.root_stress,
                    why.empty() ? "takes a tool of series II, which fewer shops have" : why.c_str());
    }
    std::printf("- The centre distance asks for shifts of %.4f in all. Split %.4f and %.4f, %s, at %.2f; the limit was %.1f.\n",
                c.profile_shift_sum, chosen.shifts.profile_shift.pinion, chosen.shifts.profile_shift.wheel,
                chosen.shifts.balanced ? "both roots slide alike" : "a limit is met before both roots slide alike", chosen.worst_sliding,
                w.worst_sliding);
    std::printf("- Permissible there are %.3f to %.3f for the pinion, so neither gear is undercut, and no tip reaches below the mate's involute.\n",
                chosen.shifts.permissible.least, chosen.shifts.permissible.greatest);
    std::printf("- The contact ratio is %.3f (at least %.1f was wanted), the thinner tip %.2f modules (at least %.1f).\n",
                chosen.contact_ratio, w.least_contact_ratio, chosen.least_tip, w.least_tip);
    if (c.has_hunting_teeth()) std::puts("- The tooth numbers have no common divisor: every tooth meets every other, and wear evens out.");
    std::printf("- The tips are shortened by %.4f modules, which keeps the rack's clearance at the bottom.\n",
                -chosen.shifts.tip_alteration);
    std::printf("- Both gears' teeth are thinned for a normal backlash of %.2f modules, common practice for this quality.\n\n", w.backlash);
}

void choose() {
    const wish w;
    std::printf("Wanted: ratio %.2f within %.1f %%, centre distance %g mm, steel gears of ordinary quality.\n\n", w.ratio,
                100 * w.ratio_tolerance, w.centre_distance);
    search_progress done{};
    const std::vector<judged> pairs = ranked_pairs(w, done);
    std::printf(
        "%llu pairs of tooth numbers and modules of ISO 54 have the ratio, %llu of them fit the centre distance. The best, with their "
        "shifts\n"
        "split for equal sliding (contact: transverse contact ratio; sliding: the worse specific sliding; root: Y_Fa Y_Sa / m):\n\n",
        static_cast<unsigned long long>(done.examined), static_cast<unsigned long long>(done.found));
    print_candidates(pairs, w);
    if (pairs.empty() || !objection(pairs.front(), w).empty())
        throw std::runtime_error("No pair meets all the wishes: loosen one of them.");
    explain(pairs, w);

    const judged& chosen = pairs.front();
    const mesh<double> pair = finished(chosen, w);
    std::fflush(stdout);
    write_table(std::cout, pair);

    const shift_region<double> region(chosen.blank, limits_of(w));
    write("choose_pair_table.txt", [&](std::ostream& out) { write_table(out, pair); });
    write("choose_pair.svg", [&](std::ostream& out) { write_svg(out, pair); });
    write("choose_pair_shifts.svg", [&](std::ostream& out) { write_svg(out, shift_region_plot(region, chosen.shifts.profile_shift)); });
    write("choose_pair_sliding.svg", [&](std::ostream& out) { write_svg(out, sliding_plot(pair)); });
    write("choose_pair_curvature.svg", [&](std::ostream& out) { write_svg(out, curvature_plot(pair)); });
    write("choose_pair_pinion_root.svg", [&](std::ostream& out) { write_svg(out, root_section_plot(pair.pinion())); });
    write("choose_pair_wheel_root.svg", [&](std::ostream& out) { write_svg(out, root_section_plot(pair.wheel())); });
    std::cout
        << "\nWritten: choose_pair_table.txt, choose_pair.svg (the pair in mesh), choose_pair_shifts.svg, choose_pair_sliding.svg,\n"
           "choose_pair_curvature.svg, choose_pair_pinion_root.svg, choose_pair_wheel_root.svg\n\n"
           "Geometry only: nothing here says that the pair bears its load. Rating it is for ISO 6336, or the code in force where the\n"
           "mill stands, in licensed hands; gears need guards, and the first part is checked before a batch is cut.\n";
    std::cout.flush();
    if (!std::cout) throw std::runtime_error("The output could not be written.");
}

} // namespace

int main() {
    try {
        choose();
        return EXIT_SUCCESS;
    } catch (const std::exception& error) {
        std::cerr << "choose_pair: " << error.what() << '\n';
        return EXIT_FAILURE;
    }
}
