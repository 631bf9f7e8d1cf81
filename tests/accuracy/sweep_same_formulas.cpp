// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
#include "sweeps.hpp"

#include "every_quantity.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <string>
#include <vector>

namespace accuracy {

namespace {

using independent::real;
using reference::drawn_pair;
using reference::pair_inputs;

/// The bound: a few steps of rounding, of which each counts as one; more where the docstring says so.
double bound_of(const std::string& name) {
    const auto speaks_of = [&](const char* subject) { return name.find(subject) != std::string::npos; };
    if (speaks_of("section: ") || speaks_of("body: ")) return 32;
    // Of a sharp tool tip's trochoid: a quotient of differences, for a pinion-type cutter also of two large radii.
    if (speaks_of("fillet: curvature")) return 128;
    return 16;
}

/// Where fillet and involute cross, everything that contact is limited by hangs on the angle of the crossing. The other table has those.
bool is_undercut(const drawn_pair& drawn) {
    const auto x = reference::numbers_of<double>(drawn);
    const rackwork::mesh<double> mesh{rackwork::gear<double>(reference::pinion_parameters(x, drawn)),
                                      rackwork::gear<double>(reference::wheel_parameters(x, drawn))};
    return mesh.pinion_root().is_undercut() || mesh.wheel_root().is_undercut();
}

template <class T>
reference::quantities<T> without_own_definition(const reference::pair_numbers<T>& x, const drawn_pair& drawn) {
    return reference::every_quantity(x, drawn, reference::wanted::without_own_definition);
}

/// For every quantity the sum of what one ulp in each input changes, from differences in long double.
std::vector<double> effect_of_an_ulp(const drawn_pair& drawn, std::size_t count) {
    using wider = long double;
    std::vector<double> effect(count, 0.0);
    const auto x = reference::numbers_of<wider>(drawn);
    const auto here = without_own_definition(x, drawn);
    REQUIRE(here.all().size() == count);
    for (std::size_t i = 0; i < pair_inputs; ++i) {
        if (drawn.value[i] == 0 || drawn.size[i] == 0) continue;
        const wider h = std::fabs(x[i]) * 1e-9L;
        auto beside = x;
        beside[i] += h;
        auto there = without_own_definition(beside, drawn);
        if (there.all().size() != count) {
            // Next to a limit of what is possible a quantity may be missing on one side.
            beside[i] = x[i] - h;
            there = without_own_definition(beside, drawn);
        }
        if (there.all().size() != count) continue;
        const double ulp = std::numeric_limits<double>::epsilon() * std::fabs(drawn.value[i]);
        for (std::size_t k = 0; k < count; ++k) {
            effect[k] += static_cast<double>(std::fabs(there.all()[k].value - here.all()[k].value) / h) * ulp;
        }
    }
    return effect;
}

void compare(reference::ledger& all, const drawn_pair& drawn) {
    const auto computed = without_own_definition(reference::numbers_of<double>(drawn), drawn);
    const auto exact = without_own_definition(reference::numbers_of<real>(drawn), drawn);
    const std::size_t count = computed.all().size();
    REQUIRE(exact.all().size() == count);
    const std::vector<double> effect = effect_of_an_ulp(drawn, count);
    for (std::size_t k = 0; k < count; ++k) {
        const auto& q = computed.all()[k];
        if (reference::has_its_own_definition(q.name)) continue;
        const double size = std::max(std::fabs(q.value), std::fabs(q.size));
        if (size == 0) {
            all.record(q.name, q.value, exact.all()[k].value, {bound_of(q.name)});
            continue;
        }
        const double ulp = support::unit_in_the_last_place<double>(size);
        all.record(q.name, q.value, exact.all()[k].value, {bound_of(q.name), real(size), real(1 + effect[k] / ulp)});
    }
}

} // namespace

void sweep_same_formulas(reference::ledger& all, stream& from, long pairs) {
    while (from.drawn < pairs) {
        const auto kind = from.drawn % 3 == 2 ? rackwork::gear_kind::internal : rackwork::gear_kind::external;
        const auto drawn = reference::draw_pair(from.random, kind);
        if (!drawn || is_undercut(*drawn)) continue;
        ++from.drawn;
        all.at(reference::description(*drawn));
        compare(all, *drawn);
    }
}

} // namespace accuracy
