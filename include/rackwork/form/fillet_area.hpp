// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// What the line from the gear's axis to a root fillet sweeps: area and polar second moment.
#ifndef RACKWORK_FORM_FILLET_AREA_HPP
#define RACKWORK_FORM_FILLET_AREA_HPP

#include "../core/elementary.hpp"
#include "../core/quadrature.hpp"
#include "../core/scalar.hpp"
#include "../fillet_state.hpp"
#include "../pinion_trochoid.hpp"
#include "../rack_trochoid.hpp"

#include <array>
#include <cmath>
#include <cstddef>
#include <utility>

namespace rackwork {

namespace detail {

/// x dy - y dx over d phi: twice the rate of the swept area.
template <scalar T>
constexpr T sweep_rate(const fillet_state<T>& at) {
    return T(at.speed * (at.radial * at.sin_pressure - at.lateral * at.cos_pressure));
}

/// So many zeros; T need not have a default.
template <scalar T, std::size_t N>
constexpr std::array<T, N> zeros() {
    return []<std::size_t... I>(std::index_sequence<I...>) {
        return std::array<T, N>{(static_cast<void>(I), T(0))...};
    }(std::make_index_sequence<N>{});
}

/// A sum of whole powers of cos phi, from the power `lowest` on.
template <scalar T, std::size_t Terms>
struct cosine_powers {
    int lowest;
    std::array<T, Terms> factor;
};

template <scalar T, std::size_t N, std::size_t M>
constexpr cosine_powers<T, N + M - 1> operator*(const cosine_powers<T, N>& a, const cosine_powers<T, M>& b) {
    cosine_powers<T, N + M - 1> product{a.lowest + b.lowest, zeros<T, N + M - 1>()};
    for (std::size_t i = 0; i < N; ++i) {
        for (std::size_t j = 0; j < M; ++j) product.factor[i + j] += a.factor[i] * b.factor[j];
    }
    return product;
}

/// The integrals of cos^n phi from 0 to phi, n from -6 to 5.
template <scalar T>
class cosine_integrals {
public:
    explicit cosine_integrals(const T& phi) {
        using std::log;
        const T c = elementary::cos(phi);
        const T s = elementary::sin(phi);
        at(0) = phi;
        at(1) = s;
        T power = T(1); // c^(n-1)
        for (int n = 2; n <= greatest; ++n) {
            power *= c;
            at(n) = (power * s + T(n - 1) * at(n - 2)) / T(n);
        }
        const T tangent = s / c;
        at(-1) = T(log(T((T(1) + s) / (T(1) - s)))) / T(2);
        at(-2) = tangent;
        power = T(1); // 1/c^(n-2)
        for (int n = 3; n <= -least; ++n) {
            power /= c;
            at(-n) = (power * tangent + T(n - 2) * at(2 - n)) / T(n - 1);
        }
    }

    template <std::size_t N>
    T of(const cosine_powers<T, N>& sum) const {
        T result = T(0);
        for (std::size_t i = 0; i < N; ++i)
            result += sum.factor[i] * values_[i + static_cast<std::size_t>(sum.lowest - least)];
        return result;
    }

private:
    static constexpr int least = -6;
    static constexpr int greatest = 5;
    T& at(int n) { return values_[static_cast<std::size_t>(n - least)]; }

    static constexpr std::size_t powers = static_cast<std::size_t>(greatest - least + 1);
    std::array<T, powers> values_ = zeros<T, powers>();
};

} // namespace detail

/// Area that the line from the gear's axis sweeps while the parameter of a fillet goes from 0 to phi, 1/2 integral (x dy - y dx).
///
/// With p = (r - h) + i q turned by chi, x dy - y dx = (r - h) dq + q dh + ((r - h)^2 + q^2) d chi. Written in s = cos phi,
/// k = cos beta, R = r - h_c (so that r - h = R - rho s) both parts are sums of powers of s:
///   (r - h) dq + q dh = k (R h_c/s^2 + R rho s - rho h_c (2/s - s) - rho^2) d phi       (h, q, chi as in rack_trochoid)
///   (r - h)^2 + q^2   = a_-2/s^2 + a_-1/s + a_0 + a_1 s + a_2 s^2
///   d chi             = (rho (1/k - k) s - k h_c/s^2)/r d phi
/// and every integral of a power of cos phi is elementary.
template <scalar T>
T area_under(const rack_trochoid<T>& shape, const T& phi) {
    using std::log;
    const T r = shape.rolling_radius;
    const T rho = shape.tip_rounding;
    const T hc = shape.centre_depth;
    const T k = shape.cos_helix;
    const T R = r - hc;

    const T s = elementary::cos(phi);
    const T c = elementary::sin(phi);
    const T tangent = c / s;
    // Integrals of s^n from 0 to phi for n = -4 ... 3.
    const T to_minus_1 = T(log(T((T(1) + c) / (T(1) - c)))) / T(2);
    const T to_minus_2 = tangent;
    const T to_minus_3 = (c / square(s) + to_minus_1) / T(2);
    const T to_minus_4 = tangent + tangent * square(tangent) / T(3);
    const T to_0 = phi;
    const T to_1 = c;
    const T to_2 = (phi + s * c) / T(2);
    const T to_3 = c - c * square(c) / T(3);

    const T moving = k * (R * hc * to_minus_2 + R * rho * to_1 - rho * hc * (T(2) * to_minus_1 - to_1) - square(rho) * to_0);

    const T squared_k = square(k);
    const T a_minus_2 = squared_k * square(hc);
    const T a_minus_1 = T(2) * squared_k * hc * rho;
    const T a_0 = square(R) + squared_k * (square(rho) - square(hc));
    const T a_1 = T(-2) * rho * (R + squared_k * hc);
    const T a_2 = square(rho) * (T(1) - squared_k);
    // d chi / d phi = up s - down/s^2. Divided by r here already: a product of three lengths may leave the range of T.
    const T up = rho / r * (T(1) / k - k);
    const T down = hc / r * k;
    const T turning = up * (a_minus_2 * to_minus_1 + a_minus_1 * to_0 + a_0 * to_1 + a_1 * to_2 + a_2 * to_3) -
                      down * (a_minus_2 * to_minus_4 + a_minus_1 * to_minus_3 + a_0 * to_minus_2 + a_1 * to_minus_1 + a_2 * to_0);
    return T((moving + turning) / T(2));
}

/// Polar second moment about the gear's axis of the same area, 1/4 integral r^2 (x dy - y dx). With s = cos phi, k = cos beta, R = r - h_c (as for its swept area)
///   x dy - y dx = (k (R h_c/s^2 - 2 rho h_c/s - rho^2 + (R rho + rho h_c) s) + r_y^2 (rho (1/k - k) s - k h_c/s^2)/r) d phi,
///   r_y^2       = (R - rho s)^2 + k^2 (h_c + rho s)^2 (1 - s^2)/s^2,
/// so that the integrand is a sum of the powers -6 to 5 of cos phi, each of which has an elementary integral.
template <scalar T>
T polar_moment_under(const rack_trochoid<T>& shape, const T& phi) {
    const T r = shape.rolling_radius;
    const T rho = shape.tip_rounding;
    const T hc = shape.centre_depth;
    const T k = shape.cos_helix;
    const T R = r - hc;
    const T kk = square(k);
    const detail::cosine_powers<T, 5> squared_radius{-2,
                                                     {kk * square(hc), T(2) * kk * hc * rho,
                                                      square(R) + kk * (square(rho) - square(hc)),
                                                      T(-2) * rho * (R + kk * hc), square(rho) * (T(1) - kk)}};
    const detail::cosine_powers<T, 4> moving{-2,
                                             {k * R * hc, T(-2) * k * rho * hc, -k * square(rho), k * rho * (R + hc)}};
    const detail::cosine_powers<T, 4> turning{-2, {-k * hc / r, T(0), T(0), rho * (T(1) / k - k) / r}};
    const detail::cosine_integrals<T> integrals(phi);
    return T((integrals.of(squared_radius * moving) + integrals.of(squared_radius * squared_radius * turning)) / T(4));
}

/// The area for a pinion-type cutter's fillet. Its integrals are elliptic, of both kinds, with a modulus on either side of 1; they are
/// found by quadrature to the last places instead.
template <scalar T>
T area_under(const pinion_trochoid<T>& shape, const T& phi) {
    return T(integral([&](const T& t) { return detail::sweep_rate(shape.at(t)); }, T(0), phi) / T(2));
}

/// And its polar second moment.
template <scalar T>
T polar_moment_under(const pinion_trochoid<T>& shape, const T& phi) {
    return T(integral([&](const T& t) {
                 const fillet_state<T> at = shape.at(t);
                 return T(at.squared_radius() * detail::sweep_rate(at));
             }, T(0), phi) / T(4));
}

} // namespace rackwork

#endif
