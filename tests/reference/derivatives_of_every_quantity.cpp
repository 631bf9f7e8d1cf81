// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Every quantity of a pair of gears, external or internal, differentiated with respect to every input: what numbers of the automatic kind
// carry through formulas and solvers, against differences of the library's own values in fifty digits: over steps so small that one side
// is enough.
//
// The bound is a number of epsilons of: the derivative itself, the quantity's size over the input's, and how much the derivative
// changes where the inputs change by their own size (taken from a change of 1e-9): near the base circle, or where a fillet hardly
// cuts a flank, derivatives hang on the last places of the inputs. Where a quantity has a bend at the inputs' own places, the differences
// to the two sides differ, and a derivative that is neither of them is let pass.
#include "differentiate.hpp"
#include "every_quantity.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <string>
#include <vector>

namespace {

using independent::real;
using reference::differentiable;
using reference::drawn_pair;
using reference::pair_inputs;
using reference::pair_numbers;

constexpr double allowed = 1024; // epsilons

struct entry {
    long count = 0;
    double worst = 0;
    std::string sentence;
};

/// Values with their derivative with respect to one input.
reference::quantities<differentiable> seeded(const drawn_pair& drawn, std::size_t input) {
    auto x = reference::numbers_of<differentiable>(drawn);
    x[input] = boost::math::differentiation::make_fvar<double, 1>(drawn.value[input]);
    return reference::every_quantity(x, drawn);
}

class examination {
public:
    void of(const drawn_pair& drawn) {
        const auto x = reference::numbers_of<real>(drawn);
        const auto middle = reference::every_quantity(x, drawn);
        drawn_pair moved = drawn;
        for (std::size_t i = 0; i < pair_inputs; ++i) moved.value[i] *= 1 + (i % 2 == 0 ? 1e-9 : -1e-9);
        for (std::size_t i = 0; i < pair_inputs; ++i) {
            if (drawn.size[i] == 0) continue;
            compare(drawn, i, seeded(drawn, i), seeded(moved, i), middle);
        }
    }

    void check() const {
        for (const auto& named : entries_) {
            const entry& e = named.second;
            CHECK_MESSAGE(e.worst <= allowed, named.first, ": ", e.worst, " epsilons, allowed ", allowed, "; ", e.sentence);
        }
        CHECK(bends_ * 200 < compared_);
    }
    const std::map<std::string, entry>& entries() const { return entries_; }

private:
    void compare(const drawn_pair& drawn, std::size_t input, const reference::quantities<differentiable>& computed,
                 const reference::quantities<differentiable>& moved, const reference::quantities<real>& middle) {
        const std::size_t count = computed.all().size();
        REQUIRE(middle.all().size() == count);
        REQUIRE(moved.all().size() == count);
        const real h = real(real(drawn.size[input]) * real("1e-22"));
        const auto beside = [&](const real& step) {
            auto x = reference::numbers_of<real>(drawn);
            x[input] += step;
            const auto there = reference::every_quantity(x, drawn);
            REQUIRE(there.all().size() == count);
            std::vector<double> quotients;
            for (std::size_t k = 0; k < count; ++k) {
                quotients.push_back(static_cast<double>(real((there.all()[k].value - middle.all()[k].value) / step)));
            }
            return quotients;
        };
        const std::vector<double> right = beside(h);
        std::vector<double> left; // asked for where it matters
        for (std::size_t k = 0; k < count; ++k) {
            const auto& q = computed.all()[k];
            REQUIRE(q.name == middle.all()[k].name);
            ++compared_;
            const double derivative = q.value.derivative(1);
            const double expected = right[k];
            const double change = (moved.all()[k].value.derivative(1) - derivative) / 1e-9;
            const double own = std::max(std::abs(q.value.derivative(0)), std::abs(q.size.derivative(0)));
            const double size = std::max(std::abs(expected), own / drawn.size[input]);
            const double difference = std::abs(derivative - expected);
            const double error =
                difference == 0 ? 0 : difference / (size + std::abs(change)) / std::numeric_limits<double>::epsilon();
            if (!(error <= allowed)) {
                if (left.empty()) left = beside(real(-h));
                if (std::abs(right[k] - left[k]) > 1e-8 * (size + std::abs(change))) {
                    ++bends_;
                    continue;
                }
            }
            entry& e = entries_[q.name];
            ++e.count;
            if (error <= e.worst) continue;
            e.worst = error;
            std::ostringstream text;
            text.precision(17);
            text << "d/d(" << reference::pair_input_names[input] << ") is " << derivative << ", must be " << expected << "; "
                 << reference::description(drawn);
            e.sentence = text.str();
        }
    }

    std::map<std::string, entry> entries_;
    long compared_ = 0;
    long bends_ = 0;
};

void examine(std::uint64_t seed, int pairs, rackwork::gear_kind wheel_kind, std::size_t least_names) {
    support::random_source random(seed);
    examination all;
    for (int found = 0; found < pairs;) {
        auto drawn = reference::draw_pair(random, wheel_kind);
        if (!drawn) continue;
        // One of nominal thickness, where a formula may have taken a short way round.
        if (found == 0) drawn->value[8] = drawn->value[12] = 0;
        ++found;
        INFO(reference::description(*drawn));
        all.of(*drawn);
    }
    CHECK(all.entries().size() >= least_names);
    all.check();
}

} // namespace

TEST_CASE("every quantity of an external pair changes with every input as its differences say") {
    examine(140, 3, rackwork::gear_kind::external, 180);
}
TEST_CASE("every quantity of an internal pair changes with every input as its differences say") {
    examine(141, 2, rackwork::gear_kind::internal, 180);
}
