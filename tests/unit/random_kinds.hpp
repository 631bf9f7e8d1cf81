// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Gears and tools drawn from the whole range of the trade, and the judge of what is computed for them: right or refused with a sentence.
#ifndef RACKWORK_TESTS_UNIT_RANDOM_KINDS_HPP
#define RACKWORK_TESTS_UNIT_RANDOM_KINDS_HPP

#include <rackwork/basic_rack.hpp>
#include <rackwork/core/angle.hpp>
#include <rackwork/core/error.hpp>
#include <rackwork/cutter.hpp>
#include <rackwork/finding.hpp>
#include <rackwork/gear_parameters.hpp>

#include "random_source.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <exception>
#include <map>
#include <numbers>
#include <sstream>
#include <string>
#include <variant>

namespace random_kinds {

using rackwork::cutter;
using rackwork::deg;
using rackwork::gear_kind;
using rackwork::gear_parameters;
using rackwork::pinion_type_cutter;
using rackwork::rack_type_cutter;
using support::random_source;

inline gear_parameters<double> random_gear(random_source& random, gear_kind kind) {
    gear_parameters<double> p;
    p.normal_module = std::min(25.0, std::ldexp(0.1 * random.uniform(1, 2), random.integer(0, 7)));
    p.teeth = random.coin() ? random.integer(5, 60) : random.integer(5, 500);
    p.kind = kind;
    if (random.coin()) p.helix_angle = deg(random.uniform(-45, 45));
    p.rack.pressure_angle = deg(random.coin() ? 20 : random.uniform(14.5, 30));
    const double pointed = std::numbers::pi / 4 / std::tan(p.rack.pressure_angle.rad());
    p.rack.addendum = random.coin() ? 1 : std::min(random.uniform(0.6, 1.2), 0.95 * pointed);
    p.rack.dedendum = std::min(random.uniform(1, 1.5), 0.98 * pointed);
    p.rack.root_fillet_radius = random.uniform(0, rackwork::full_root_fillet_radius(p.rack.pressure_angle, p.rack.dedendum));
    p.profile_shift = random.uniform(-1, 1.5);
    if (random.coin()) p.tip_alteration = random.uniform(-0.3, 0.05);
    if (random.coin()) p.thickness_allowance = p.normal_module * random.uniform(-0.1, 0.01);
    switch (random.integer(0, 7)) {
    case 0:
        p.tip_chamfer = p.normal_module * random.uniform(0, 0.25);
        p.tip_chamfer_angle = deg(random.uniform(35, 75));
        break;
    case 1: p.tip_rounding = p.normal_module * random.uniform(0, 0.25); break;
    default: break; // sharp edges
    }
    return p;
}

inline cutter<double> random_tool(random_source& random, const gear_parameters<double>& p) {
    if (p.kind == gear_kind::internal || random.coin()) {
        const int most = p.kind == gear_kind::internal ? std::max(3, p.teeth - 1) : 80;
        return pinion_type_cutter<double>{.teeth = random.integer(3, std::min(most, 100)),
                                          .profile_shift = random.uniform(-0.5, 0.8),
                                          .addendum = random.uniform(0.9, 1.5),
                                          .tip_radius = random.coin() ? 0 : random.uniform(0, 0.5)};
    }
    rack_type_cutter<double> tool{.addendum = random.uniform(0.9, 1.6), .tip_radius = random.coin() ? 0.2 : random.uniform(0, 0.5)};
    if (random.coin()) {
        tool.finishing_allowance = random.coin() ? 0 : random.uniform(0, 0.08);
        tool.protuberance = tool.finishing_allowance + (random.integer(0, 3) == 0 ? 0 : random.uniform(0, 0.08));
        tool.protuberance_angle = deg(random.coin() ? 10 : random.uniform(0, 18));
    }
    return tool;
}

inline std::string described(const gear_parameters<double>& p) {
    std::ostringstream text;
    text.precision(17);
    text << (p.kind == gear_kind::internal ? "internal" : "external") << ", module " << p.normal_module << ", " << p.teeth
         << " teeth, helix " << p.helix_angle.deg() << ", rack " << p.rack.pressure_angle.deg() << ' ' << p.rack.addendum << ' '
         << p.rack.dedendum << ' ' << p.rack.root_fillet_radius << ", shift " << p.profile_shift << ", tip alteration " << p.tip_alteration
         << ", allowance " << p.thickness_allowance << ", chamfer " << p.tip_chamfer << " at " << p.tip_chamfer_angle.deg() << ", rounding "
         << p.tip_rounding;
    return text.str();
}
inline std::string described(const cutter<double>& tool) {
    std::ostringstream text;
    text.precision(17);
    if (const auto* pinion = std::get_if<pinion_type_cutter<double>>(&tool)) {
        text << "; cutter " << pinion->teeth << " teeth, shift " << pinion->profile_shift << ", addendum " << pinion->addendum
             << ", tip radius " << pinion->tip_radius;
    } else {
        const auto& rack = std::get<rack_type_cutter<double>>(tool);
        text << "; rack-type tool, addendum " << rack.addendum << ", tip radius " << rack.tip_radius << ", protuberance "
             << rack.protuberance << " at " << rack.protuberance_angle.deg() << ", finishing allowance " << rack.finishing_allowance
             << ", chamfer at " << rack.chamfer_height << " of " << rack.chamfer_angle.deg();
    }
    return text.str();
}

/// What is wrong, in so many words. No check framework in here: it is asked too often.
class faults {
public:
    void expect(bool good, const char* what) {
        if (!good) text_ << what << "; ";
    }
    void finite(double value, const char* what) {
        if (!std::isfinite(value)) text_ << what << " is not a number; ";
    }
    std::string text() const { return text_.str(); }

private:
    std::ostringstream text_;
};

/// Every finding has its numbers and its sentence.
inline void look_at_findings(const rackwork::finding_list<double>& list, faults& found) {
    for (const auto& f : list) {
        found.finite(f.value, f.quantity);
        found.finite(f.limit, f.quantity);
        found.expect(std::string(f.sentence).size() > 20 && f.quantity[0] != 0, "a finding says nothing");
    }
}

struct tally {
    int right = 0;
    std::map<std::string, int> refused;

    int all_refused() const {
        int sum = 0;
        for (const auto& each : refused) sum += each.second;
        return sum;
    }
};

template <class Look>
void judge(const std::string& what, tally& counted, const Look& look) {
    try {
        faults found;
        look(found);
        if (const std::string text = found.text(); !text.empty()) FAIL_CHECK(text << "at " << what);
        ++counted.right;
    } catch (const rackwork::geometry_error& error) {
        ++counted.refused[error.cause().quantity];
        const std::string sentence = error.what();
        if (sentence.find("must") == std::string::npos) FAIL_CHECK("no sentence: " << sentence << " at " << what);
    } catch (const std::exception& error) {
        FAIL_CHECK("another exception: " << error.what() << " at " << what);
    }
}

inline void report(const tally& counted) {
    std::ostringstream text;
    for (const auto& [quantity, times] : counted.refused) text << "\n  " << times << " for " << quantity;
    MESSAGE(counted.right << " right, " << counted.all_refused() << " refused:" << text.str());
}

} // namespace random_kinds

#endif
