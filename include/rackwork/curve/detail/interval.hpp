// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Numbers known to lie within a distance of a centre: what a proof by computation calculates with.
#ifndef RACKWORK_CURVE_DETAIL_INTERVAL_HPP
#define RACKWORK_CURVE_DETAIL_INTERVAL_HPP

#include "../../core/elementary.hpp"
#include "../../core/scalar.hpp"

#include <limits>

namespace rackwork::detail {

/// All numbers within a distance, the radius, of a centre. Every operation's result holds each number that the operation can give for
/// numbers of its operands, rounding included; where that is unbounded the radius is infinite or not a number, and so is the radius of
/// whatever is computed from it: it never passes through a comparison in which it could get lost.
///
/// Rests on: T rounds + - * / sqrt to within half an epsilon of the result, sin, cos and atan to within four epsilons. (IEEE arithmetic does the
/// former; the common mathematical libraries, and Boost.Multiprecision, are within one unit in the last place in the latter.)
template <scalar T>
class interval {
public:
    constexpr interval() = default;
    constexpr interval(const T& number) : centre_(number) {}
    constexpr interval(int number) : interval(T(number)) {}

    /// All numbers within a distance of another one.
    static constexpr interval around(const T& centre, const T& radius) { return {centre, radius}; }

    constexpr const T& centre() const { return centre_; }
    constexpr const T& radius() const { return radius_; }
    /// Less than each of its numbers. Not a number where the interval is unbounded.
    constexpr T lower() const { return T(centre_ - radius_ - rounding(T(magnitude(centre_) + radius_))); }
    /// More than the greatest absolute value of its numbers. Infinite or not a number where the interval is unbounded.
    constexpr T greatest_magnitude() const {
        const T sum = T(magnitude(centre_) + radius_);
        return T(sum + rounding(sum));
    }

    /// A sum of products: cheaper than one operation after the other, since it is rounded outward only once.
    class sum_of_products {
    public:
        constexpr void add(const interval& a, const interval& b) { add_centre(T(a.centre_ * b.centre_), a, b); }
        constexpr void subtract(const interval& a, const interval& b) { add_centre(T(-(a.centre_ * b.centre_)), a, b); }
        constexpr interval value() const {
            // Each product and each partial sum is off by at most half an epsilon of the sum of the absolute values.
            const T rounding_of_centre = T(count_ + 1) * (epsilon<T>() * size_ + T((std::numeric_limits<T>::min)()));
            const T radius = radius_ + rounding_of_centre;
            return {centre_, T(radius + T(count_ + 8) * epsilon<T>() * radius)};
        }

    private:
        constexpr void add_centre(const T& product, const interval& a, const interval& b) {
            centre_ += product;
            size_ += magnitude(product);
            radius_ += magnitude(a.centre_) * b.radius_ + a.radius_ * (magnitude(b.centre_) + b.radius_);
            ++count_;
        }

        T centre_{0};
        T size_{0};
        T radius_{0};
        int count_ = 0;
    };

    constexpr interval operator-() const { return {T(-centre_), radius_}; }
    friend constexpr interval operator+(const interval& a, const interval& b) {
        return rounded(T(a.centre_ + b.centre_), T(a.radius_ + b.radius_));
    }
    friend constexpr interval operator-(const interval& a, const interval& b) {
        return rounded(T(a.centre_ - b.centre_), T(a.radius_ + b.radius_));
    }
    friend constexpr interval operator*(const interval& a, const interval& b) {
        return rounded(T(a.centre_ * b.centre_),
                       T(magnitude(a.centre_) * b.radius_ + a.radius_ * (magnitude(b.centre_) + b.radius_)));
    }
    friend constexpr interval operator/(const interval& a, const interval& b) {
        // |1/x - 1/c| <= r/(|c| (|c| - r))
        const T size = magnitude(b.centre_);
        const T nearest = size - b.radius_ - rounding(size);
        const T safe = nearest * unless_negative(nearest);
        return a * rounded(T(T(1) / b.centre_), T(b.radius_ / (size * safe)));
    }

    friend constexpr interval sqrt(const interval& a) {
        // |sqrt x - sqrt c| <= r / sqrt c
        const T root = elementary::sqrt(a.centre_);
        const T lowest = a.centre_ - a.radius_ - rounding(magnitude(a.centre_));
        return rounded(root, T(a.radius_ / (root * unless_negative(lowest))));
    }
    // Neither the arc tangent nor sine nor cosine changes by more than its argument does.
    friend constexpr interval atan(const interval& a) {
        return rounded(elementary::atan(a.centre_), T(a.radius_ + T(8) * epsilon<T>()));
    }
    friend constexpr interval sin(const interval& a) {
        return rounded(elementary::sin(a.centre_), T(a.radius_ + T(4) * epsilon<T>()));
    }
    friend constexpr interval cos(const interval& a) {
        return rounded(elementary::cos(a.centre_), T(a.radius_ + T(4) * epsilon<T>()));
    }

private:
    constexpr interval(const T& centre, const T& radius) : centre_(centre), radius_(radius) {}

    /// More than a dozen roundings of a result of that size, and than one that underflows.
    static constexpr T rounding(const T& size) { return T(T(8) * epsilon<T>() * size + T((std::numeric_limits<T>::min)())); }

    /// With the error of rounding the centre, and the few of computing the radius, added to the radius.
    static constexpr interval rounded(const T& centre, const T& radius) {
        return {centre, T(radius + (epsilon<T>() * magnitude(centre) + rounding(radius)))};
    }

    /// 1 for a positive number, otherwise not a number.
    static constexpr T unless_negative(const T& number) {
        return number > T(0) ? T(1) : T((std::numeric_limits<T>::quiet_NaN)());
    }

    T centre_{0};
    T radius_{0};
};

} // namespace rackwork::detail

/// What makes an interval a scalar of this library.
template <class T>
class std::numeric_limits<rackwork::detail::interval<T>> : public std::numeric_limits<T> {};

#endif
