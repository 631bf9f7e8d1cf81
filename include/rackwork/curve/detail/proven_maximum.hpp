// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The greatest value of a distance along a curve, between two bounds that are proved.
#ifndef RACKWORK_CURVE_DETAIL_PROVEN_MAXIMUM_HPP
#define RACKWORK_CURVE_DETAIL_PROVEN_MAXIMUM_HPP

#include "../../core/elementary.hpp"
#include "../../core/point.hpp"
#include "../../core/scalar.hpp"
#include "interval.hpp"
#include "jet.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <limits>
#include <vector>

namespace rackwork::detail {

/// Number of coefficients of the Taylor series with which proofs are made.
inline constexpr int proof_coefficients = 8;
/// The scalar type at which a curve is evaluated for a proof.
template <scalar T>
using proof_jet = jet<interval<T>, proof_coefficients>;

/// A distance that is reached somewhere on the way, and one that is exceeded nowhere.
/// A bound of (std::numeric_limits<T>::max)() says that nothing could be proved.
template <scalar T>
struct distance_bounds {
    T reached;
    T bound;
};

/// Bound of q_0 + q_1 x + q_2 x^2 + ... for |x| <= w: of the parabola exactly, of the rest by absolute values.
template <scalar T, std::size_t N>
T bound_of_polynomial(const std::array<interval<T>, N>& q, const T& w) {
    const T slope = magnitude(q[1].centre());
    const T bend = q[2].centre();
    // x (slope + bend x) is greatest at an end, or at its vertex if that is a maximum within reach.
    T best = slope * w + bend * square(w);
    if (bend < T(0) && slope < T(-2) * bend * w) best = square(slope) / (T(-4) * bend);
    T sum = q[0].centre() + q[0].radius() + best + q[1].radius() * w + q[2].radius() * square(w);
    T power = square(w);
    for (std::size_t k = 3; k < N; ++k) {
        power *= w;
        sum += q[k].greatest_magnitude() * power;
    }
    return sum;
}

/// Bound of the length of a vector for |x| <= w. It is e_0 + e_1 x + ... + r x^m: the coefficients before the m-th from its expansion about
/// the middle, the last one from an expansion that encloses the whole range (Lagrange's remainder). Not a number if there is none.
template <scalar T>
T bound_of_length(const point<proof_jet<T>>& e, const point<proof_jet<T>>& wide, int m, const T& w) {
    constexpr int leading = 4; // so many coefficients keep their directions
    const auto size = [](const interval<T>& x, const interval<T>& y) {
        return elementary::sqrt(T(square(x.greatest_magnitude()) + square(y.greatest_magnitude())));
    };
    T power = T(1);
    T rest = T(0);
    for (int k = 0; k < m; ++k) {
        if (k >= leading) rest += size(e.x[k], e.y[k]) * power;
        power *= w;
    }
    rest += size(wide.x[m], wide.y[m]) * power;

    std::array<interval<T>, 2 * leading - 1> squared{};
    for (int i = 0; i < leading; ++i) {
        for (int j = 0; j < leading; ++j) {
            interval<T>& sum = squared[static_cast<std::size_t>(i + j)];
            sum = sum + e.x[i] * e.x[j] + e.y[i] * e.y[j];
        }
    }
    const T most = bound_of_polynomial(squared, w);
    if (!is_finite(most)) return most - most;
    // The sums above and the root are rounded some dozen times.
    return T((elementary::sqrt(larger(most, T(0))) + rest) * (T(1) + T(64) * epsilon<T>()));
}

/// The coefficients of a function expanded about any place within w of the middle, from its expansion about the middle and one that
/// encloses the whole range: narrower than the latter, whose last coefficient alone is used, where large parts of the function cancel.
template <scalar T>
proof_jet<T> narrowed(const proof_jet<T>& here, const proof_jet<T>& wide, const T& w) {
    constexpr int last = proof_coefficients - 1;
    std::array<interval<T>, proof_coefficients> result{};
    for (int j = 0; j <= last; ++j) {
        // f = sum of c_k x^k has at x the coefficients sum of binomial(k, j) c_k x^(k - j).
        T away = T(0);
        T factor = T(1); // binomial(k, j) w^(k - j)
        for (int k = j + 1; k <= last; ++k) {
            factor *= w * (T(k) / T(k - j));
            away += (k == last ? wide : here)[k].greatest_magnitude() * factor;
        }
        const interval<T> centre = j == last ? wide[j] : here[j];
        result[static_cast<std::size_t>(j)] = centre + interval<T>::around(T(0), T(away * (T(1) + T(64) * epsilon<T>())));
    }
    return proof_jet<T>::of(result);
}
template <scalar T>
point<proof_jet<T>> narrowed(const point<proof_jet<T>>& here, const point<proof_jet<T>>& wide, const T& w) {
    return {narrowed(here.x, wide.x, w), narrowed(here.y, wide.y, w)};
}

/// Half the length of the range between two parameters, a little more than that in fact: nothing may fall between neighbouring ranges.
template <scalar T>
T half_width(const T& from, const T& to) {
    return T((to - from) / T(2) * (T(1) + T(8) * epsilon<T>()) + T(2) * epsilon<T>() * (magnitude(from) + magnitude(to)));
}

/// Bounds for the greatest distance between two parameters. `bounds(from, to)` gives them for a part of the range; it is halved where
/// they are greatest, until the bound is within a tenth of what is reached, and also within 1/64 of it or at most `allowed`; or until it is
/// at most `enough`. It begins with so many equal parts.
template <scalar T, class Bounds>
distance_bounds<T> proven_maximum(const Bounds& bounds, const T& from, const T& to, const T& enough, const T& allowed, int first_parts) {
    constexpr int most_parts = 512;
    constexpr int most_parts_in_vain = 96; // without any bound at all
    struct part {
        T from;
        T to;
        T bound;
    };
    const auto lower = [](const part& a, const part& b) { return a.bound < b.bound; };
    std::vector<part> heap;
    T reached = T(0);
    const auto add = [&](const T& a, const T& b, const T& known_bound) {
        const distance_bounds<T> found = bounds(a, b);
        reached = larger(reached, found.reached);
        heap.push_back({a, b, smaller(found.bound, known_bound)}); // a part's bound holds for its halves
        std::push_heap(heap.begin(), heap.end(), lower);
    };
    T before = from;
    for (int i = 1; i <= first_parts; ++i) {
        const T next = i == first_parts ? to : T(from + (to - from) * (T(i) / T(first_parts)));
        add(before, next, (std::numeric_limits<T>::max)());
        before = next;
    }
    for (int parts = first_parts; parts < most_parts; ++parts) {
        const part worst = heap.front();
        const bool close_enough = worst.bound <= reached * T(11) / T(10) &&
                          (worst.bound <= allowed || worst.bound <= reached * T(65) / T(64) || reached > allowed);
        if (close_enough || worst.bound <= enough) break;
        if (parts > most_parts_in_vain && worst.bound == (std::numeric_limits<T>::max)()) break;
        if (magnitude(T(worst.to - worst.from)) < magnitude(T(to - from)) / T(1 << 16)) break; // rounding is all that is left
        std::pop_heap(heap.begin(), heap.end(), lower);
        heap.pop_back();
        const T middle = T(worst.from + (worst.to - worst.from) / T(2));
        add(worst.from, middle, worst.bound);
        add(middle, worst.to, worst.bound);
    }
    return {reached, heap.front().bound};
}

} // namespace rackwork::detail

#endif
