// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// An angle that says its unit on the way in and on the way out.
#ifndef RACKWORK_CORE_ANGLE_HPP
#define RACKWORK_CORE_ANGLE_HPP

#include "elementary.hpp"
#include "scalar.hpp"

#include <limits>
#include <type_traits>

namespace rackwork {

/// An angle. Made only by name, `deg(20.)`, `rad(0.35)`, `20_deg`, and read only by name, `.deg()`, `.rad()`: a bare number
/// does not convert in either direction, so degrees and radians cannot be mixed up.
template <scalar T = double>
class angle {
public:
    /// The zero angle.
    constexpr angle() = default;

    /// From an angle of another scalar type that is at least as precise. (An angle of double does not silently become one of a
    /// wider type: 20 degrees to 16 places is not 20 degrees to 50.)
    template <scalar U>
        requires(!std::is_same_v<U, T> && std::numeric_limits<U>::digits >= std::numeric_limits<T>::digits)
    constexpr angle(const angle<U>& other) : radians_(static_cast<T>(other.rad())) {}

    /// The angle in radians.
    constexpr const T& rad() const { return radians_; }
    /// The angle in degrees.
    constexpr T deg() const { return T(radians_ * T(180) / pi<T>()); }

    static constexpr angle from_radians(const T& radians) {
        angle result;
        result.radians_ = radians;
        return result;
    }

    constexpr angle operator-() const { return from_radians(T(-radians_)); }
    constexpr angle& operator+=(const angle& other) {
        radians_ += other.radians_;
        return *this;
    }
    constexpr angle& operator-=(const angle& other) {
        radians_ -= other.radians_;
        return *this;
    }
    friend constexpr angle operator+(angle a, const angle& b) { return a += b; }
    friend constexpr angle operator-(angle a, const angle& b) { return a -= b; }
    friend constexpr angle operator*(const angle& a, const T& factor) { return from_radians(T(a.radians_ * factor)); }
    friend constexpr angle operator*(const T& factor, const angle& a) { return from_radians(T(factor * a.radians_)); }
    friend constexpr angle operator/(const angle& a, const T& divisor) { return from_radians(T(a.radians_ / divisor)); }
    friend constexpr T operator/(const angle& a, const angle& b) { return T(a.radians_ / b.radians_); }
    friend constexpr bool operator==(const angle& a, const angle& b) { return a.radians_ == b.radians_; }
    friend constexpr bool operator<(const angle& a, const angle& b) { return a.radians_ < b.radians_; }
    friend constexpr bool operator>(const angle& a, const angle& b) { return b < a; }
    friend constexpr bool operator<=(const angle& a, const angle& b) { return a.radians_ <= b.radians_; }
    friend constexpr bool operator>=(const angle& a, const angle& b) { return b <= a; }

private:
    T radians_{0};
};

/// The scalar that holds an angle given as a plain number: the number's own type, or double for a whole number.
template <class N>
using angle_scalar_of = std::conditional_t<std::is_integral_v<N>, double, N>;

/// An angle given in radians.
template <class N>
constexpr angle<angle_scalar_of<N>> rad(const N& radians) {
    return angle<angle_scalar_of<N>>::from_radians(static_cast<angle_scalar_of<N>>(radians));
}

/// An angle given in degrees. Accuracy: 2 ulp.
template <class N>
constexpr angle<angle_scalar_of<N>> deg(const N& degrees) {
    using T = angle_scalar_of<N>;
    return angle<T>::from_radians(T(static_cast<T>(degrees) * pi<T>() / T(180)));
}

/// `20_deg`, `22.5_deg`, `0.35_rad`: angles of double.
namespace literals {
constexpr angle<double> operator""_deg(long double degrees) { return deg(static_cast<double>(degrees)); }
constexpr angle<double> operator""_deg(unsigned long long degrees) { return deg(static_cast<double>(degrees)); }
constexpr angle<double> operator""_rad(long double radians) { return rad(static_cast<double>(radians)); }
constexpr angle<double> operator""_rad(unsigned long long radians) { return rad(static_cast<double>(radians)); }
} // namespace literals

/// Sine of an angle.
template <scalar T>
constexpr T sin(const angle<T>& a) {
    return elementary::sin(a.rad());
}
/// Cosine of an angle.
template <scalar T>
constexpr T cos(const angle<T>& a) {
    return elementary::cos(a.rad());
}
/// Tangent of an angle.
template <scalar T>
constexpr T tan(const angle<T>& a) {
    return elementary::tan(a.rad());
}
/// The angle in (-90, 90) degrees whose tangent is given.
template <scalar T>
constexpr angle<T> arctangent(const T& tangent) {
    return angle<T>::from_radians(elementary::atan(tangent));
}

} // namespace rackwork

#endif
