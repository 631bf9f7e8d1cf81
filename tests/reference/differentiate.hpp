// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The library run with numbers that carry a derivative, against differences of the independent computation in fifty digits.
#pragma once

#include "independent_gear.hpp"
#include "ledger.hpp"
#include "random_gears.hpp"

#include <array>
#include <cmath>
#include <cstddef>
#include <map>
#include <sstream>
#include <string>

#include <boost/math/differentiation/autodiff.hpp>

#include <rackwork/gear.hpp>

namespace reference {

/// A number with its first derivative.
using differentiable = boost::math::differentiation::autodiff_fvar<double, 1>;

/// The inputs with respect to which is differentiated, as plain numbers; what they mean is up to the two computations.
template <std::size_t n>
struct named_inputs {
    std::array<double, n> value;
    std::array<const char*, n> name;
    /// How far each may be moved for its effect to count: the size its derivatives are multiplied by.
    std::array<double, n> size;
};

/// Holds the derivatives of quantities to a bound that is relative to the largest of: the derivative, and the quantity's own size over
/// the input's.
class derivative_ledger {
public:
    explicit derivative_ledger(double allowed) : allowed_(allowed) {}

    void at(const std::string& where) { where_ = where; }

    /// A quantity's name; the size it is small or large against (0: itself); and a condition number that relaxes the bound where the
    /// value itself is ill-conditioned.
    struct subject {
        std::string name;
        double size = 0;
        double condition = 1;
    };

    /// Several quantities of one object. `library` takes the inputs as differentiable numbers, `exact` as real ones; both return as many
    /// values as there are subjects.
    template <std::size_t n, std::size_t many, class Library, class Exact>
    void record(const std::array<subject, many>& subjects, const named_inputs<n>& in, const Library& library, const Exact& exact) {
        std::array<real, n> x;
        for (std::size_t i = 0; i < n; ++i) x[i] = real(in.value[i]);
        for (std::size_t i = 0; i < n; ++i) {
            if (in.size[i] == 0) continue;
            std::array<differentiable, n> seeded;
            for (std::size_t j = 0; j < n; ++j) {
                seeded[j] = j == i ? boost::math::differentiation::make_fvar<double, 1>(in.value[j]) : differentiable(in.value[j]);
            }
            const std::array<differentiable, many> computed = library(seeded);
            const real h = real(real(in.size[i]) * real("1e-16"));
            std::array<real, n> x_before = x;
            std::array<real, n> x_after = x;
            x_before[i] -= h;
            x_after[i] += h;
            const std::array<real, many> before = exact(x_before);
            const std::array<real, many> after = exact(x_after);
            for (std::size_t q = 0; q < many; ++q) {
                judge(subjects[q], computed[q], real((after[q] - before[q]) / (2 * h)), in.size[i], in.name[i]);
            }
        }
    }

    /// One quantity.
    template <std::size_t n, class Library, class Exact>
    void record(const subject& one, const named_inputs<n>& in, const Library& library, const Exact& exact) {
        record(
            std::array<subject, 1>{one}, in,
            [&](const std::array<differentiable, n>& x) { return std::array<differentiable, 1>{library(x)}; },
            [&](const std::array<real, n>& x) { return std::array<real, 1>{exact(x)}; });
    }

    void check() const {
        CHECK_FALSE(entries_.empty());
        for (const auto& named : entries_) {
            const entry& e = named.second;
            CAPTURE(e.count);
            CHECK_MESSAGE(e.worst <= allowed_, named.first, ": relative error ", e.worst, ", allowed ", allowed_, "; ", e.sentence);
        }
    }

    long count(const std::string& quantity) const {
        const auto found = entries_.find(quantity);
        return found == entries_.end() ? 0 : found->second.count;
    }

private:
    void judge(const subject& s, const differentiable& computed, const real& expected, double input_size, const char* input) {
        const double derivative = computed.derivative(1);
        const double own = s.size == 0 ? std::abs(computed.derivative(0)) : s.size;
        const double scale = std::max(std::abs(static_cast<double>(expected)), own / input_size);
        const double error = static_cast<double>(real(abs(real(real(derivative) - expected)))) / (scale * s.condition);
        entry& e = entries_[s.name];
        ++e.count;
        if (e.count > 1 && error <= e.worst) return;
        e.worst = error;
        std::ostringstream text;
        text.precision(17);
        text << "d/d(" << input << ") is " << derivative << ", must be " << expected << "; " << where_;
        e.sentence = text.str();
    }

    struct entry {
        long count = 0;
        double worst = 0;
        std::string sentence;
    };
    double allowed_;
    std::map<std::string, entry> entries_;
    std::string where_;
};

/// One gear's parameters and one number more, a diameter or a dimension.
inline constexpr std::size_t gear_inputs = 11;

inline named_inputs<gear_inputs> inputs_of(const rackwork::gear_parameters<double>& p, double further, double further_size) {
    const double m = p.normal_module;
    return {.value = {m, p.helix_angle.rad(), p.rack.pressure_angle.rad(), p.rack.addendum, p.rack.dedendum,
                      p.rack.root_fillet_radius, p.profile_shift, p.tip_alteration, p.thickness_allowance, p.face_width, further},
            .name = {"normal module", "helix angle", "pressure angle", "addendum", "dedendum", "root fillet radius", "profile shift",
                     "tip alteration", "thickness allowance", "face width", "further input"},
            .size = {m, 1, 1, 1, 1, 1, 1, 1, m, m, further_size}};
}

template <class T>
rackwork::gear<T> gear_from(const std::array<T, gear_inputs>& x, int teeth) {
    return rackwork::gear<T>({.normal_module = x[0],
                              .teeth = teeth,
                              .helix_angle = rackwork::rad(x[1]),
                              .rack = {.pressure_angle = rackwork::rad(x[2]), .addendum = x[3], .dedendum = x[4], .root_fillet_radius = x[5]},
                              .profile_shift = x[6],
                              .tip_alteration = x[7],
                              .thickness_allowance = x[8],
                              .face_width = x[9]});
}

inline independent::gear exact_gear_from(const std::array<real, gear_inputs>& x, int teeth) {
    return independent::gear({.normal_module = x[0],
                              .teeth = teeth,
                              .helix = x[1],
                              .pressure = x[2],
                              .addendum = x[3],
                              .dedendum = x[4],
                              .fillet = x[5],
                              .shift = x[6],
                              .tip_alteration = x[7],
                              .allowance = x[8],
                              .face_width = x[9]});
}

/// A random gear on whose every input its sizes depend smoothly: no full radius, whose land is just gone.
inline rackwork::gear_parameters<double> random_smooth_gear(support::random_source& random, double largest_helix) {
    rackwork::gear_parameters<double> p = random_gear(random, largest_helix);
    if (random.coin()) p.teeth = random.integer(5, 25);
    p.rack.root_fillet_radius *= 0.9;
    return p;
}

} // namespace reference
