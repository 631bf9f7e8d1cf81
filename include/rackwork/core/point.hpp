// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Points and vectors of the transverse section.
#ifndef RACKWORK_CORE_POINT_HPP
#define RACKWORK_CORE_POINT_HPP

#include "elementary.hpp"
#include "scalar.hpp"

namespace rackwork {

/// A point or a vector in the plane: x to the right, y up, the gear's axis at the origin.
template <scalar T = double>
struct point {
    T x{0};
    T y{0};

    friend constexpr point operator+(const point& a, const point& b) { return {T(a.x + b.x), T(a.y + b.y)}; }
    friend constexpr point operator-(const point& a, const point& b) { return {T(a.x - b.x), T(a.y - b.y)}; }
    friend constexpr point operator*(const T& factor, const point& a) { return {T(factor * a.x), T(factor * a.y)}; }
    friend constexpr bool operator==(const point& a, const point& b) { return a.x == b.x && a.y == b.y; }
};

/// Scalar product.
template <scalar T>
constexpr T dot(const point<T>& a, const point<T>& b) {
    return T(a.x * b.x + a.y * b.y);
}

/// Area of the parallelogram of two vectors, positive when the second lies counter-clockwise of the first.
template <scalar T>
constexpr T cross(const point<T>& a, const point<T>& b) {
    return T(a.x * b.y - a.y * b.x);
}

/// Length of a vector.
template <scalar T>
constexpr T length(const point<T>& a) {
    return elementary::sqrt(dot(a, a));
}

/// The unit vector at an angle in radians, counter-clockwise from the x axis.
template <scalar T>
constexpr point<T> direction(const T& radians) {
    return {elementary::cos(radians), elementary::sin(radians)};
}

/// The vector turned counter-clockwise by the angle of a unit vector.
template <scalar T>
constexpr point<T> turned(const point<T>& a, const point<T>& by) {
    return {T(a.x * by.x - a.y * by.y), T(a.x * by.y + a.y * by.x)};
}

/// The vector turned counter-clockwise by an angle in radians.
template <scalar T>
constexpr point<T> turned(const point<T>& a, const T& radians) {
    return turned(a, direction(radians));
}

/// The mirror image in the x axis.
template <scalar T>
constexpr point<T> mirrored(const point<T>& a) {
    return {a.x, T(-a.y)};
}

} // namespace rackwork

#endif
