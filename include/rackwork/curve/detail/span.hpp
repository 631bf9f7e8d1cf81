// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// One polynomial span by its control points, and the numbers that it can choose between two given ends and tangents.
#ifndef RACKWORK_CURVE_DETAIL_SPAN_HPP
#define RACKWORK_CURVE_DETAIL_SPAN_HPP

#include "../../core/point.hpp"
#include "../../core/scalar.hpp"
#include "natural_shares.hpp"

#include <array>

namespace rackwork::detail {

inline constexpr int lowest_degree = 3;
inline constexpr int highest_degree = 7;

/// The weights of the control points at a parameter: binomial(p, k) (1 - u)^(p - k) u^k.
template <scalar T>
constexpr std::array<T, highest_degree + 1> bernstein(int degree, const T& u) {
    std::array<T, highest_degree + 1> b{T(1)};
    for (int p = 1; p <= degree; ++p) {
        T carried = T(0);
        for (int k = 0; k < p; ++k) {
            const T before = b[index(k)];
            b[index(k)] = carried + (T(1) - u) * before;
            carried = u * before;
        }
        b[index(p)] = carried;
    }
    return b;
}

/// A polynomial curve over [0, 1] by its control points, and the piece of the exact curve for which it stands.
template <scalar T>
struct span {
    int degree = 0;
    std::array<point<T>, highest_degree + 1> control{};
    /// Parameters of the exact curve.
    T from{0};
    T to{0};

    struct motion {
        point<T> position;
        point<T> velocity;
    };

    constexpr motion at(const T& u) const {
        const auto b = bernstein(degree - 1, u);
        motion m{};
        for (int k = 0; k < degree; ++k) {
            const point<T> leg = control[index(k + 1)] - control[index(k)];
            m.velocity = m.velocity + T(T(degree) * b[index(k)]) * leg;
            m.position = m.position + b[index(k)] * (control[index(k)] + u * leg);
        }
        return m;
    }
    /// The parameter at which the span passes the normal of the curve at a point of it, looked for from `u` on.
    constexpr T abreast(const point<T>& on_curve, const point<T>& tangent, T u) const {
        for (int step = 0; step < 8; ++step) {
            const motion here = at(u);
            const T change = dot(here.position - on_curve, tangent) / dot(here.velocity, tangent);
            if (!(magnitude(change) < T(1))) break;
            u -= change;
            if (square(change) < T(8) * epsilon<T>()) break; // the next change is about the square of this one
        }
        return u;
    }
};

/// A number for each that a span can choose.
template <scalar T>
using span_row = std::array<T, 2 * highest_degree - 4>;

/// The spans of a degree between two ends with given tangents. Free are the lengths of the two end legs and the control points between them:
/// 2 p - 4 numbers.
template <scalar T>
struct span_choice {
    int degree = 0;
    point<T> start;
    point<T> end;
    point<T> start_tangent;
    point<T> end_tangent;

    constexpr int unknowns() const { return 2 * degree - 4; }

    /// What a unit of each unknown does to the span's point with the given weights, seen in a direction.
    constexpr span_row<T> effects(const std::array<T, highest_degree + 1>& b, const point<T>& seen) const {
        span_row<T> r{};
        r[0] = b[1] * dot(start_tangent, seen);
        r[1] = -b[index(degree - 1)] * dot(end_tangent, seen);
        for (int k = 2; k <= degree - 2; ++k) {
            r[index(2 * k - 2)] = b[index(k)] * seen.x;
            r[index(2 * k - 1)] = b[index(k)] * seen.y;
        }
        return r;
    }

    constexpr void set(span<T>& s, const span_row<T>& x) const {
        s.degree = degree;
        s.control[0] = start;
        s.control[1] = start + x[0] * start_tangent;
        s.control[index(degree)] = end;
        s.control[index(degree - 1)] = end - x[1] * end_tangent;
        for (int k = 2; k <= degree - 2; ++k) s.control[index(k)] = {x[index(2 * k - 2)], x[index(2 * k - 1)]};
    }
};

} // namespace rackwork::detail

#endif
