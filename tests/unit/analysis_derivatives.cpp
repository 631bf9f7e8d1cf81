// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Derivatives that numbers of the automatic kind carry through the analysis, against differences in fifty digits.
#include <rackwork/analysis/contact.hpp>
#include <rackwork/analysis/lewis_form_factor.hpp>
#include <rackwork/analysis/normal_section.hpp>
#include <rackwork/analysis/tooth_root.hpp>
#include <rackwork/analysis/tooth_root_iso_6336.hpp>

#include "ulp.hpp"

#include <algorithm>
#include <cmath>
#include <type_traits>

#include <boost/math/differentiation/autodiff.hpp>
#include <doctest/doctest.h>

using rackwork::deg;
using rackwork::gear;
using rackwork::gear_parameters;
using rackwork::mesh;
using support::wide;

namespace {

using number = boost::math::differentiation::autodiff_fvar<double, 1>;

template <class T>
gear<T> shifted(const T& shift, int teeth, int helix = 12) {
    return gear<T>{gear_parameters<T>{.normal_module = T(2),
                                      .teeth = teeth,
                                      .helix_angle = deg(T(helix)),
                                      .profile_shift = shift,
                                      .face_width = T(30)}};
}

/// Largest difference between the derivative that `quantity`, a function of the profile shift and the number of teeth, carries and the
/// difference quotient at fifty digits; relative to the derivative, or to 1.
template <class Quantity>
double worst_derivative(const Quantity& quantity) {
    double worst = 0;
    const wide h("1e-15");
    for (const int teeth : {11, 18, 23, 41, 90}) {
        for (int i = 0; i <= 20; ++i) {
            const double shift = -0.15 + i * 0.0375;
            const number seeded = quantity(number(boost::math::differentiation::make_fvar<double, 1>(shift)), teeth);
            const wide difference =
                (quantity(wide(wide(shift) + h), teeth) - quantity(wide(wide(shift) - h), teeth)) / (2 * h);
            const double expected = static_cast<double>(difference);
            worst = std::max(worst, std::fabs(seeded.derivative(1) - expected) / std::max(1.0, std::fabs(expected)));
        }
    }
    return worst;
}

/// The type without reference and const, for generic functions.
template <class T>
using plain = std::remove_cvref_t<T>;

} // namespace

TEST_CASE("the critical section carries derivatives through its search") {
    const auto root = [](const auto& x, int teeth) { return rackwork::root_under_tip_load(shifted(x, teeth)); };
    CHECK(worst_derivative([&](const auto& x, int teeth) { return root(x, teeth).chord; }) < 1e-12);
    CHECK(worst_derivative([&](const auto& x, int teeth) { return root(x, teeth).fillet_radius; }) < 1e-12);
    CHECK(worst_derivative([&](const auto& x, int teeth) { return root(x, teeth).arm; }) < 1e-12);
    CHECK(worst_derivative([&](const auto& x, int teeth) { return root(x, teeth).form_factor(); }) < 1e-12);
    CHECK(worst_derivative([&](const auto& x, int teeth) { return root(x, teeth).stress_correction_factor(); }) <
          1e-12);
}

TEST_CASE("the standard's formulas carry derivatives through their iteration") {
    const auto root = [](const auto& x, int teeth) {
        return rackwork::iso_6336_root_under_tip_load(shifted(x, teeth));
    };
    CHECK(worst_derivative([&](const auto& x, int teeth) { return root(x, teeth).chord; }) < 1e-12);
    CHECK(worst_derivative([&](const auto& x, int teeth) { return root(x, teeth).fillet_radius; }) < 1e-12);
}

TEST_CASE("the true normal section carries derivatives through its two searches") {
    const auto root = [](const auto& x, int teeth) {
        using T = plain<decltype(x)>;
        return rackwork::root_in_normal_section(shifted(x, teeth, 28), T(T(2 * teeth + 3) / cos(deg(T(28)))));
    };
    CHECK(worst_derivative([&](const auto& x, int teeth) { return root(x, teeth).chord; }) < 1e-12);
    CHECK(worst_derivative([&](const auto& x, int teeth) { return root(x, teeth).fillet_radius; }) < 1e-12);
    CHECK(worst_derivative([&](const auto& x, int teeth) { return root(x, teeth).arm; }) < 1e-11);
}

TEST_CASE("the Lewis section carries derivatives, on the fillet and on the flank") {
    const auto lewis = [](const auto& x, int teeth) {
        return rackwork::lewis_section_under_tip_load(shifted(x, teeth == 41 ? 500 : teeth));
    };
    CHECK(worst_derivative([&](const auto& x, int teeth) { return lewis(x, teeth).chord; }) < 1e-11);
    CHECK(worst_derivative([&](const auto& x, int teeth) { return lewis(x, teeth).arm; }) < 1e-11);
    CHECK(worst_derivative([&](const auto& x, int teeth) { return lewis(x, teeth).form_factor(); }) < 1e-12);
}

TEST_CASE("sliding and curvature at the ends of contact carry derivatives") {
    const auto path = [](const auto& x, int teeth) {
        using T = plain<decltype(x)>;
        return rackwork::path_of_contact<T>(mesh<T>{shifted(x, teeth), shifted(T(0), 57, -12)});
    };
    CHECK(worst_derivative([&](const auto& x, int teeth) { return path(x, teeth).length(); }) < 1e-11);
    CHECK(worst_derivative([&](const auto& x, int teeth) { return path(x, teeth).point_e().sliding_velocity(); }) <
          1e-11);
    CHECK(worst_derivative(
              [&](const auto& x, int teeth) { return path(x, teeth).point_e().specific_sliding().pinion; }) < 1e-11);
    CHECK(worst_derivative([&](const auto& x, int teeth) { return path(x, teeth).point_d().relative_curvature(); }) <
          1e-11);
}
