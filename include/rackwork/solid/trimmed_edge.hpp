// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The edge in which a cone about the axis cuts a straight or helical flank, as a B-spline with a proven distance from both surfaces.
#ifndef RACKWORK_SOLID_TRIMMED_EDGE_HPP
#define RACKWORK_SOLID_TRIMMED_EDGE_HPP

#include "../core/point.hpp"
#include "../core/scalar.hpp"
#include "brep.hpp"
#include "end_chamfer.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <utility>
#include <vector>

namespace rackwork::detail {

/// A clamped B-spline over [0, 1] whose points are in space, or of a plane curve (x w, y w, w) with its weight w.
struct clamped_spline {
    int degree = 1;
    std::vector<double> knots{0, 0, 1, 1};
    std::vector<point3> points;

    /// The same curve with one more knot at u.
    void insert_knot(double u) {
        const auto p = static_cast<std::size_t>(degree);
        const std::size_t k = static_cast<std::size_t>(std::upper_bound(knots.begin(), knots.end(), u) - knots.begin()) - 1;
        std::vector<point3> finer(points.begin(), points.begin() + static_cast<std::ptrdiff_t>(k - p + 1));
        for (std::size_t i = k - p + 1; i <= k; ++i) {
            const double share = (u - knots[i]) / (knots[i + p] - knots[i]);
            if (share == 0) {
                finer.push_back(points[i - 1]);
            } else {
                finer.push_back((1 - share) * points[i - 1] + share * points[i]);
            }
        }
        finer.insert(finer.end(), points.begin() + static_cast<std::ptrdiff_t>(k), points.end());
        knots.insert(knots.begin() + static_cast<std::ptrdiff_t>(k + 1), u);
        points = std::move(finer);
    }
};

/// The point of a plane curve, of which `points` are (x w, y w, w), at a parameter.
inline point<double> plane_position(const clamped_spline& c, double u) {
    const auto p = static_cast<std::size_t>(c.degree);
    std::size_t k = p;
    while (k + 1 < c.points.size() && c.knots[k + 1] <= u) ++k;
    std::array<point3, 8> d{};
    for (std::size_t j = 0; j <= p; ++j) d[j] = c.points[k - p + j];
    for (std::size_t level = 1; level <= p; ++level) {
        for (std::size_t j = p; j >= level; --j) {
            const double low = c.knots[k - p + j];
            const double share = (u - low) / (c.knots[k + 1 + j - level] - low);
            d[j] = (1 - share) * d[j - 1] + share * d[j];
        }
    }
    return {d[p].x / d[p].z, d[p].y / d[p].z};
}

/// The part of a curve between two parameters, again over [0, 1].
inline clamped_spline part_of(clamped_spline c, double from, double to) {
    const auto p = static_cast<std::size_t>(c.degree);
    const auto cut = [&](double u) {
        const auto repeated = static_cast<std::size_t>(std::count(c.knots.begin(), c.knots.end(), u));
        for (std::size_t i = repeated; i < p; ++i) c.insert_knot(u);
        return static_cast<std::size_t>(std::upper_bound(c.knots.begin(), c.knots.end(), u) - c.knots.begin()) - 1;
    };
    if (to < 1) {
        const std::size_t k = cut(to);
        c.knots.resize(k + 1);
        c.knots.push_back(to);
        c.points.resize(k - p + 1);
    }
    if (from > 0) {
        const std::size_t k = cut(from);
        c.knots.erase(c.knots.begin(), c.knots.begin() + static_cast<std::ptrdiff_t>(k - p + 1));
        c.knots.insert(c.knots.begin(), from);
        c.points.erase(c.points.begin(), c.points.begin() + static_cast<std::ptrdiff_t>(k - p));
    }
    for (double& knot : c.knots) knot = (knot - from) / (to - from);
    std::fill_n(c.knots.begin(), p + 1, 0.);
    std::fill_n(c.knots.end() - static_cast<std::ptrdiff_t>(p + 1), p + 1, 1.);
    return c;
}

/// A power series to its third power.
struct short_series {
    std::array<double, 4> c{};

    friend short_series operator+(short_series a, const short_series& b) {
        for (std::size_t i = 0; i < 4; ++i) a.c[i] += b.c[i];
        return a;
    }
    friend short_series operator*(double factor, short_series a) {
        for (double& x : a.c) x *= factor;
        return a;
    }
    friend short_series operator*(const short_series& a, const short_series& b) {
        short_series product;
        for (std::size_t i = 0; i < 4; ++i) {
            for (std::size_t j = 0; i + j < 4; ++j) product.c[i + j] += a.c[i] * b.c[j];
        }
        return product;
    }
    friend short_series operator/(const short_series& a, const short_series& b) {
        short_series quotient;
        for (std::size_t i = 0; i < 4; ++i) {
            double rest = a.c[i];
            for (std::size_t j = 1; j <= i; ++j) rest -= b.c[j] * quotient.c[i - j];
            quotient.c[i] = rest / b.c[0];
        }
        return quotient;
    }
};

inline short_series square_root(const short_series& a) {
    short_series root;
    root.c[0] = std::sqrt(a.c[0]);
    for (std::size_t i = 1; i < 4; ++i) {
        double rest = a.c[i];
        for (std::size_t j = 1; j < i; ++j) rest -= root.c[j] * root.c[i - j];
        root.c[i] = rest / (2 * root.c[0]);
    }
    return root;
}

/// Cosine and sine of an angle that is a series: of e^(i a) the derivative is i a' e^(i a).
inline std::array<short_series, 2> cosine_and_sine(const short_series& a) {
    std::array<short_series, 2> result;
    auto& [cosine, sine] = result;
    cosine.c[0] = std::cos(a.c[0]);
    sine.c[0] = std::sin(a.c[0]);
    for (std::size_t i = 1; i < 4; ++i) {
        for (std::size_t j = 1; j <= i; ++j) {
            const double share = static_cast<double>(j) * a.c[j] / static_cast<double>(i);
            cosine.c[i] -= share * sine.c[i - j];
            sine.c[i] += share * cosine.c[i - j];
        }
    }
    return result;
}

/// A complex polynomial over [0, 1] by its Bernstein coefficients, each times its binomial: products are plain convolutions, and no value is
/// larger than the largest coefficient.
class scaled_polynomial {
public:
    scaled_polynomial() = default;
    template <class Value>
    scaled_polynomial(std::size_t count, const Value& coefficient) : c_(count) {
        double binomial = 1;
        for (std::size_t k = 0; k < count; ++k) {
            c_[k] = binomial * coefficient(k);
            binomial = binomial * static_cast<double>(count - 1 - k) / static_cast<double>(k + 1);
        }
    }

    friend scaled_polynomial operator*(const scaled_polynomial& a, const scaled_polynomial& b) {
        scaled_polynomial product;
        product.c_.resize(a.c_.size() + b.c_.size() - 1);
        for (std::size_t i = 0; i < a.c_.size(); ++i) {
            for (std::size_t k = 0; k < b.c_.size(); ++k)
                product.c_[i + k] = product.c_[i + k] + turned(a.c_[i], b.c_[k]);
        }
        return product;
    }
    friend scaled_polynomial operator-(scaled_polynomial a, scaled_polynomial b) {
        a.raise_to(b.c_.size());
        b.raise_to(a.c_.size());
        for (std::size_t k = 0; k < a.c_.size(); ++k) a.c_[k] = a.c_[k] - b.c_[k];
        return a;
    }

    scaled_polynomial conjugate() const {
        scaled_polynomial result = *this;
        for (point<double>& p : result.c_) p = mirrored(p);
        return result;
    }

    /// 1 + factor times this.
    scaled_polynomial one_plus(const point<double>& factor) const {
        return scaled_polynomial(1, [](std::size_t) { return point<double>{1, 0}; }) -
               *this * scaled_polynomial(1, [&](std::size_t) { return -1. * factor; });
    }

    /// No value in [0, 1] has a greater magnitude.
    double bound() const {
        double largest = 0;
        double binomial = 1;
        for (std::size_t k = 0; k < c_.size(); ++k) {
            largest = larger(largest, length(c_[k]) / binomial);
            binomial = binomial * static_cast<double>(c_.size() - 1 - k) / static_cast<double>(k + 1);
        }
        return largest;
    }

private:
    /// Degree by degree: times (1 - t) + t.
    void raise_to(std::size_t count) {
        while (c_.size() < count) {
            c_.push_back({});
            for (std::size_t k = c_.size() - 1; k > 0; --k) c_[k] = c_[k] + c_[k - 1];
        }
    }

    std::vector<point<double>> c_;
};

/// Finds the edges in which a cone cuts what a plane curve sweeps along a screw (or straight on).
///
/// Of a point of the curve the radius gives the height on the cone, and that the turn: the edge is known point by point in closed form. By
/// Hermite's interpolation it becomes a B-spline of the stated degree over the curve's own parameter. What that strays is bounded by
/// Bernstein coefficients: from the cone of x^2 + y^2 - R(z)^2, from the flank of the difference between the edge and the curve turned as
/// the edge's own height asks for (the turn as a Taylor polynomial with its remainder). Both are polynomials, so no value between
/// samples can be missed; intervals are halved until both are within the tolerance.
class trimmed_edge_fitter {
public:
    /// Twist in radians per length; degree 3, 5 or 7; tolerance a length.
    trimmed_edge_fitter(const end_chamfer& chamfer, double twist, int degree, double tolerance)
        : chamfer_(chamfer), twist_(twist), contact_(static_cast<std::size_t>(degree + 1) / 2), tolerance_(tolerance) {}

    /// Where a point of the section lies when it is raised to the cone.
    point3 raised(const point<double>& p) const {
        const double height = chamfer_.height_at(length(p));
        const point<double> q = turned(p, direction(twist_ * height));
        return {q.x, q.y, height};
    }

    /// The edge above a part of the section, given as (x w, y w, w).
    bspline_curve edge(const clamped_spline& section) {
        bspline_curve result;
        result.degree = static_cast<int>(degree());
        result.knots.assign(degree() + 1, 0);
        for (std::size_t k = 0; k + 1 < section.knots.size(); ++k) {
            if (section.knots[k] < section.knots[k + 1])
                append(section, section.knots[k], section.knots[k + 1], 0, result);
        }
        result.knots.insert(result.knots.end(), degree() + 1, 1);
        return result;
    }

    /// No edge so far strays farther from the cone, or from the flank (screw and section taken as they are).
    double deviation() const { return deviation_; }

private:
    std::size_t degree() const { return 2 * contact_ - 1; }

    void append(const clamped_spline& section, double from, double to, int halvings, bspline_curve& result) {
        const clamped_spline piece = part_of(section, from, to);
        const std::vector<point3> points = interpolated(piece.points);
        const double strays = bound(piece.points, points);
        if (!(strays <= tolerance_) && halvings < most_halvings) {
            append(section, from, (from + to) / 2, halvings + 1, result);
            append(section, (from + to) / 2, to, halvings + 1, result);
            return;
        }
        deviation_ = larger(deviation_, strays);
        // Velocities agree where intervals meet, so the point there follows from its neighbours and is no control point.
        if (from > 0) {
            result.control_points.pop_back();
            result.knots.insert(result.knots.end(), degree() - 1, from);
        }
        result.control_points.insert(result.control_points.end(), points.begin() + (from > 0 ? 1 : 0), points.end());
    }

    /// Bezier points of the interpolation over one Bezier piece of the section.
    std::vector<point3> interpolated(std::vector<point3> piece) const {
        std::vector<point3> result(degree() + 1);
        const std::array<point3, 4> first = first_half(piece);
        std::reverse(piece.begin(), piece.end());
        const std::array<point3, 4> second = first_half(piece);
        for (std::size_t k = 0; k < contact_; ++k) {
            result[k] = first[k];
            result[degree() - k] = second[k];
        }
        return result;
    }

    std::array<point3, 4> first_half(const std::vector<point3>& piece) const {
        // Of the piece at its start: the j-th coefficient is the j-th difference times (degree over j).
        std::array<point3, 4> differences{};
        const std::size_t count = (std::min)(piece.size(), differences.size());
        for (std::size_t k = 0; k < count; ++k) differences[k] = piece[k];
        short_series x, y, w;
        double binomial = 1;
        for (std::size_t j = 0; j < count; ++j) {
            x.c[j] = binomial * differences[0].x;
            y.c[j] = binomial * differences[0].y;
            w.c[j] = binomial * differences[0].z;
            binomial = binomial * static_cast<double>(piece.size() - 1 - j) / static_cast<double>(j + 1);
            for (std::size_t k = 0; k + 1 < differences.size(); ++k) differences[k] = differences[k + 1] - differences[k];
        }
        x = x / w;
        y = y / w;
        short_series height = (1 / chamfer_.slope()) * square_root(x * x + y * y);
        height.c[0] = chamfer_.height_at(std::hypot(x.c[0], y.c[0]));
        const auto [cosine, sine] = cosine_and_sine(twist_ * height);
        const short_series across = x * cosine + -1. * (y * sine);
        const short_series up = x * sine + y * cosine;
        std::array<point3, 4> result{};
        for (std::size_t k = 0; k < contact_; ++k) {
            double of_k = 1;       // k over j
            double of_degree = 1;  // degree over j
            for (std::size_t j = 0; j <= k; ++j) {
                result[k] = result[k] + (of_k / of_degree) * point3{across.c[j], up.c[j], height.c[j]};
                of_k = of_k * static_cast<double>(k - j) / static_cast<double>(j + 1);
                of_degree = of_degree * static_cast<double>(degree() - j) / static_cast<double>(j + 1);
            }
        }
        return result;
    }

    double bound(const std::vector<point3>& piece, const std::vector<point3>& points) const {
        return larger(from_cone(points), from_flank(piece, points));
    }

    double from_cone(const std::vector<point3>& points) const {
        double least = std::numeric_limits<double>::infinity();
        const auto radius = [&](const point3& p) {
            return chamfer_.end_radius + chamfer_.slope() * (p.z - chamfer_.end_height);
        };
        for (const point3& p : points) least = smaller(least, radius(p));
        const scaled_polynomial edge(points.size(),
                                     [&](std::size_t k) { return point<double>{points[k].x, points[k].y}; });
        const scaled_polynomial cone(points.size(), [&](std::size_t k) { return point<double>{radius(points[k]), 0}; });
        const double difference = (edge * edge.conjugate() - cone * cone).bound();
        // |r - R| = |r^2 - R^2|/(r + R), and r^2 is not less than the least R^2 - |r^2 - R^2|.
        const double shortest = least * least - difference;
        return shortest > 0 && least > 0 ? difference / (least + std::sqrt(shortest))
                                         : std::numeric_limits<double>::infinity();
    }

    double from_flank(const std::vector<point3>& piece, const std::vector<point3>& points) const {
        double least_weight = piece.front().z;
        for (const point3& p : piece) least_weight = smaller(least_weight, p.z);
        const scaled_polynomial curve(piece.size(),
                                      [&](std::size_t k) { return point<double>{piece[k].x, piece[k].y}; });
        const scaled_polynomial weight(piece.size(), [&](std::size_t k) { return point<double>{piece[k].z, 0}; });
        const double middle = (points.front().z + points.back().z) / 2;
        const scaled_polynomial angle(
            points.size(), [&](std::size_t k) { return point<double>{twist_ * (points[k].z - middle), 0}; });
        const double largest = angle.bound();
        if (!(largest < 0.5)) return std::numeric_limits<double>::infinity();
        const double radius = curve.bound() / least_weight;
        // e^(i a) to the power n of a; what is left out is not longer than |a|^(n + 1)/(n + 1)!.
        int power = 0;
        double remainder = largest;
        while (remainder * radius > tolerance_ / 64 && power < most_powers) {
            ++power;
            remainder *= largest / (power + 1);
        }
        const point<double> turn = direction(twist_ * middle);
        scaled_polynomial series(1, [](std::size_t) { return point<double>{1, 0}; });
        for (int n = power; n >= 1; --n) series = (series * angle).one_plus({0, 1. / n});
        const scaled_polynomial turned_back(points.size(), [&](std::size_t k) {
            return turned(point<double>{points[k].x, points[k].y}, mirrored(turn));
        });
        return (weight * turned_back - series * curve).bound() / least_weight + remainder * radius;
    }

    static constexpr int most_halvings = 16;
    static constexpr int most_powers = 12;
    end_chamfer chamfer_;
    double twist_;
    std::size_t contact_;
    double tolerance_;
    double deviation_ = 0;
};

} // namespace rackwork::detail

#endif
