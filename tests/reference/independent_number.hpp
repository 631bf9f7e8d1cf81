// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The fifty-digit number of the references, and the general numerical tools they stand on: vectors, roots, minima.
#pragma once

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <stdexcept>
#include <type_traits>
#include <utility>

#include <boost/math/constants/constants.hpp>
#include <boost/math/tools/minima.hpp>
#include <boost/math/tools/roots.hpp>
#ifdef RACKWORK_REFERENCE_MPFR
#include <boost/multiprecision/mpfr.hpp>
#else
#include <boost/multiprecision/cpp_bin_float.hpp>
#endif

/// A second computation of everything, to fifty digits, from definitions: curves, planes, lines and the tool, not the formulas
/// of the library. Nothing in these headers includes or repeats the library.
namespace independent {

/// Boost's own number, which needs nothing else; or MPFR's of as many digits, which is several times as fast: for large samples.
#ifdef RACKWORK_REFERENCE_MPFR
using real = boost::multiprecision::static_mpfr_float_50;
#else
using real = boost::multiprecision::cpp_bin_float_50;
#endif

/// Thrown when a reference value could not be found: always a failure of the test, never a reason to skip.
struct no_reference : std::runtime_error {
    using std::runtime_error::runtime_error;
};

inline const real& pi() {
    static const real value = boost::math::constants::pi<real>();
    return value;
}

template <class R>
R epsilon_of() {
    return (std::numeric_limits<R>::epsilon)();
}

/// A vector in space; plane geometry uses x and y. R is real, or long double where only a start for the search is wanted.
template <class R = real>
struct vector3 {
    R x{0};
    R y{0};
    R z{0};

    friend vector3 operator+(const vector3& a, const vector3& b) { return {R(a.x + b.x), R(a.y + b.y), R(a.z + b.z)}; }
    friend vector3 operator-(const vector3& a, const vector3& b) { return {R(a.x - b.x), R(a.y - b.y), R(a.z - b.z)}; }
    friend vector3 operator*(const R& f, const vector3& a) { return {R(f * a.x), R(f * a.y), R(f * a.z)}; }
};

template <class R>
R dot(const vector3<R>& a, const vector3<R>& b) {
    return R(a.x * b.x + a.y * b.y + a.z * b.z);
}
template <class R>
vector3<R> cross(const vector3<R>& a, const vector3<R>& b) {
    return {R(a.y * b.z - a.z * b.y), R(a.z * b.x - a.x * b.z), R(a.x * b.y - a.y * b.x)};
}
template <class R>
R length(const vector3<R>& a) {
    using std::sqrt;
    return sqrt(dot(a, a));
}
template <class R>
vector3<R> unit(const vector3<R>& a) {
    return R(R(1) / length(a)) * a;
}
/// Sine and cosine of an angle, which MPFR finds together in the time of one.
template <class R>
struct sine_and_cosine {
    R sine;
    R cosine;

    explicit sine_and_cosine(const R& angle) {
#ifdef RACKWORK_REFERENCE_MPFR
        if constexpr (std::is_same_v<R, real>) {
            mpfr_sin_cos(sine.backend().data(), cosine.backend().data(), angle.backend().data(), MPFR_RNDN);
            return;
        }
#endif
        using std::cos;
        using std::sin;
        sine = sin(angle);
        cosine = cos(angle);
    }
};
/// Turned about the z axis, counter-clockwise.
template <class R>
vector3<R> turned(const vector3<R>& a, const sine_and_cosine<R>& by) {
    return {R(by.cosine * a.x - by.sine * a.y), R(by.sine * a.x + by.cosine * a.y), a.z};
}
template <class R>
vector3<R> turned(const vector3<R>& a, const R& by) {
    return turned(a, sine_and_cosine<R>(by));
}
/// Distance from the z axis.
template <class R>
R radius(const vector3<R>& a) {
    using std::sqrt;
    return sqrt(R(a.x * a.x + a.y * a.y));
}
/// Angle about the z axis from the x axis. In fifty digits: turned back by the angle in long double, a vector keeps one so small that the
/// third term of its arc tangent's series, of some 10^-95, is beyond the last place.
template <class R>
R polar_angle(const vector3<R>& a) {
    using std::atan2;
    if constexpr (std::is_same_v<R, real>) {
        const R rough(atan2(static_cast<long double>(a.y), static_cast<long double>(a.x)));
        const vector3<R> rest = turned(a, R(-rough));
        if (!(rest.x > 0)) return atan2(a.y, a.x);
        const R tangent = R(rest.y / rest.x);
        return R(rough + tangent * (1 - tangent * tangent / 3));
    } else {
        return atan2(a.y, a.x);
    }
}
/// The angle between a right and a left one whose tangent is given.
template <class R>
R arc_tangent(const R& tangent) {
    return polar_angle(vector3<R>{R(1), tangent, R(0)});
}

/// Root of f between two arguments of different sign, to the last places.
template <class F>
real root_between(const F& f, const real& low, const real& high) {
    const real at_low = f(low);
    const real at_high = f(high);
    if (at_low == 0) return low;
    if (at_high == 0) return high;
    if ((at_low < 0) == (at_high < 0)) throw no_reference("no change of sign between the ends");
    std::uintmax_t steps = 200;
    const auto ends = boost::math::tools::toms748_solve(f, low, high, at_low, at_high,
                                                        boost::math::tools::eps_tolerance<real>(165), steps);
    return real((ends.first + ends.second) / 2);
}

/// The same of an f that takes long double and real: the search runs in the one, the last places come from the other, by secants.
template <class F>
real searched_root_between(const F& f, const real& low, const real& high) {
    const auto rough = [&](const long double& x) -> long double { return f(x); };
    const long double from = static_cast<long double>(low);
    const long double to = static_cast<long double>(high);
    const long double at_from = rough(from);
    const long double at_to = rough(to);
    if (at_from == 0 || at_to == 0 || (at_from < 0) == (at_to < 0)) return root_between(f, low, high);
    std::uintmax_t steps = 200;
    const auto ends = boost::math::tools::toms748_solve(rough, from, to, at_from, at_to,
                                                        boost::math::tools::eps_tolerance<long double>(60), steps);
    const real width = real(high - low);
    real before = ends.first;
    real x = real(ends.second + width * 1e-18);
    real f_before = f(before);
    for (int step = 0; step < 60; ++step) {
        const real f_x = f(x);
        if (f_x == 0 || f_x == f_before) break;
        const real next = real(x - f_x * (x - before) / (f_x - f_before));
        const real move = abs(real(next - x));
        before = x;
        f_before = f_x;
        x = next;
        if (move <= width * 1e-34) break; // the error is that times the one before
    }
    if (x < low || x > high) throw no_reference("the secants left the bracket");
    return x;
}

/// Root of f near a start, by secants.
template <class F>
real root_near(const F& f, const real& start, const real& scale) {
    real before = start;
    real f_before = f(before);
    if (f_before == 0) return before;
    real x = real(start + scale / 1000000);
    for (int step = 0; step < 60; ++step) {
        const real f_x = f(x);
        if (f_x == 0 || f_x == f_before) return x;
        const real next = real(x - f_x * (x - before) / (f_x - f_before));
        const real move = abs(real(next - x));
        before = x;
        f_before = f_x;
        x = next;
        if (move <= scale * real("1e-30")) return x; // what is still missing is that times the move before
    }
    throw no_reference("the secants did not converge");
}

/// Solves n equations by Newton's method with a Jacobian of finite differences; steps are shortened to `longest` times the
/// unknowns' scales. False when it does not settle.
template <std::size_t n, class R, class F>
bool newton(const F& f, std::array<R, n>& x, const std::array<R, n>& scale, const R& longest, int most_steps) {
    using std::abs;
    using std::sqrt;
    const R relative = sqrt(epsilon_of<R>());
    R before = R(1);
    for (int step = 0; step < most_steps; ++step) {
        const std::array<R, n> value = f(x);
        std::array<std::array<R, n + 1>, n> rows;
        for (std::size_t j = 0; j < n; ++j) {
            std::array<R, n> beside = x;
            const R h = R(relative * scale[j]);
            beside[j] += h;
            const std::array<R, n> there = f(beside);
            for (std::size_t i = 0; i < n; ++i) rows[i][j] = R((there[i] - value[i]) / h);
        }
        for (std::size_t i = 0; i < n; ++i) rows[i][n] = R(-value[i]);
        for (std::size_t c = 0; c < n; ++c) { // elimination with row exchange
            std::size_t best = c;
            for (std::size_t i = c + 1; i < n; ++i) {
                if (abs(rows[i][c]) > abs(rows[best][c])) best = i;
            }
            std::swap(rows[c], rows[best]);
            if (rows[c][c] == R(0)) return false;
            for (std::size_t i = 0; i < n; ++i) {
                if (i == c) continue;
                const R factor = R(rows[i][c] / rows[c][c]);
                for (std::size_t j = c; j <= n; ++j) rows[i][j] -= R(factor * rows[c][j]);
            }
        }
        R largest = 0;
        std::array<R, n> move;
        for (std::size_t i = 0; i < n; ++i) {
            move[i] = R(rows[i][n] / rows[i][i]);
            const R size = R(abs(move[i]) / scale[i]);
            if (!(size <= largest)) largest = size;
        }
        if (!(largest < R(1e30))) return false;
        const R shorten = largest > longest ? R(longest / largest) : R(1);
        for (std::size_t i = 0; i < n; ++i) x[i] += R(shorten * move[i]);
        // Settled: after a step that short the error is that step's length times that of the Jacobian, beyond the last places; or where
        // rounding keeps the steps from getting any shorter.
        if (largest < relative / R(1024) || (largest < relative && largest >= before)) return true;
        before = largest;
    }
    return false;
}

/// The argument between `low` and `high` at which f is least. f takes long double and real: the search runs in the one, the last
/// places come from the other, by parabolas through three points.
template <class F>
real place_of_minimum(const F& f, const real& low, const real& high) {
    using boost::math::tools::brent_find_minima;
    const auto rough = [&](const long double& x) -> long double { return f(x); };
    const long double found =
        brent_find_minima(rough, static_cast<long double>(low), static_cast<long double>(high), 32).first;
    const real h = real((high - low) * real("1e-15"));
    real x = real(found);
    for (int step = 0; step < 40; ++step) {
        const real here = f(x);
        const real before = f(real(x - h));
        const real after = f(real(x + h));
        const real bend = real(before - 2 * here + after);
        if (!(bend > 0)) throw no_reference("no minimum at the place found");
        const real move = real(h / 2 * (before - after) / bend);
        x += move;
        if (abs(move) < (high - low) * real("1e-27")) {
            if (x < low || x > high) throw no_reference("the minimum lies outside the range");
            return x;
        }
    }
    throw no_reference("the parabolas did not converge");
}

} // namespace independent
