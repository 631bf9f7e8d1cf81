// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// The straight lines in which the flanks of a pair touch, and how their total length changes while the gears turn.
#ifndef RACKWORK_ANALYSIS_CONTACT_LINES_HPP
#define RACKWORK_ANALYSIS_CONTACT_LINES_HPP

#include "../core/error.hpp"
#include "../core/scalar.hpp"
#include "../mesh.hpp"
#include "contact.hpp"

namespace rackwork {

/// A contact line in the field of contact, from one of its ends to the other. Its length is 0 when the pair of teeth does not
/// touch.
template <scalar T>
struct contact_line {
    /// Distances from the pitch point along the line of action.
    T from_distance;
    T to_distance;
    /// Distances from the face of the gears that comes into contact first.
    T from_width;
    T to_width;
    /// Length of the line.
    T length;
};

/// The contact lines of a pair, spur or helical. Immutable; usable in constant expressions.
///
/// The flanks touch in the plane of action, in the field that the path of contact and the common face width b enclose. Its
/// contact lines are straight, a transverse base pitch apart along the path, and lean by the base helix angle, so that over the
/// width they lag by epsilon_beta base pitches. The phase, from 0 to 1, says how far the lines have moved, as a share of the
/// base pitch; the pinion turns through one pitch in the meantime. At phase 0 the lagging end of a line is at A.
///
/// The total length is linear in the phase from one coming or going of a line's end to the next. Its extremes are closed
/// formulas in the contact ratios. Written as epsilon = n + f, whole and broken part,
///   total length = b / (epsilon_beta cos beta_b) (n_a n_b + n_a f_b + n_b f_a + overlap),
/// where the overlap of the two broken parts lies between max(0, f_a + f_b - 1) and min(f_a, f_b).
/// Accuracy for double: 16 ulp of the greatest total length, divided by the overlap ratio where that is below 1.
template <scalar T = double>
class contact_lines {
public:
    /// Throws geometry_error when a face width is not stated, the flanks do not reach each other, or the overlap ratio is more
    /// than a million.
    constexpr explicit contact_lines(const mesh<T>& pair)
        : path_(pair), width_(smaller(pair.pinion().parameters().face_width, pair.wheel().parameters().face_width)) {
        require(check_greater("face_width", width_, T(0)));
        transverse_ = path_.transverse_contact_ratio();
        overlap_ = pair.overlap_contact_ratio();
        require(check_at_most("overlap_contact_ratio", overlap_, T(1 << 20))); // the lines are counted
    }

    /// The face width that the gears have in common, b.
    constexpr const T& face_width() const { return width_; }
    /// Length of a line that goes across the whole width, b / cos beta_b.
    constexpr T full_length() const { return T(width_ / path_.line().cos_base_helix); }

    /// Mean of the total length over the mesh cycle, epsilon_alpha b / cos beta_b.
    constexpr T mean_total_length() const { return T(transverse_ * full_length()); }
    /// Least total length over the mesh cycle, l_min. For a spur pair the least number of pairs in contact, times b.
    constexpr T least_total_length() const {
        if (overlap_ == T(0)) return T(T(whole_part(transverse_)) * full_length());
        const parts p = broken();
        return T(full_length() * ((p.always + larger(T(p.transverse + p.overlap - T(1)), T(0))) / overlap_));
    }
    /// Greatest total length over the mesh cycle, l_max.
    constexpr T greatest_total_length() const {
        const parts p = broken();
        if (overlap_ == T(0)) {
            return T(T(whole_part(transverse_) + (p.transverse > T(0) ? 1 : 0)) * full_length());
        }
        return T(full_length() * ((p.always + smaller(p.transverse, p.overlap)) / overlap_));
    }
    /// Total length of the contact lines at a phase, l. Throws geometry_error unless the phase is in [0, 1].
    constexpr T total_length(const T& phase) const {
        T sum = T(0);
        for (int i = 0; i < most_lines(); ++i) sum += line(i, phase).length;
        return sum;
    }

    /// No more lines than this touch at any time; those of them that do not have length 0.
    constexpr int most_lines() const { return whole_part(transverse_) + 1 + lines_behind(); }
    /// A line at a phase; the one with the greatest index is furthest along the path.
    /// Throws geometry_error unless the index is in [0, most_lines()) and the phase in [0, 1].
    constexpr contact_line<T> line(int index, const T& phase) const {
        require(first_of(check_at_least("index of the contact line", T(index), T(0)),
                         check_less("index of the contact line", T(index), T(most_lines())),
                         check_at_least("phase", phase, T(0)), check_at_most("phase", phase, T(1))));
        // In base pitches from A: where the line is at the lagging face; it is `overlap_` further on at the leading one.
        const T place = phase + T(index - lines_behind());
        // Shares of the width, counted from the lagging face.
        T from = T(0);
        T to = T(1);
        if (overlap_ == T(0)) {
            if (place < T(0) || !(place < transverse_)) to = T(0);
        } else {
            if (place < T(0)) from = T(-place / overlap_);
            if (transverse_ < place + overlap_) to = T((transverse_ - place) / overlap_);
            if (!(from < to)) to = from = smaller(larger(from, T(0)), T(1));
        }
        const T begin = path_.point_a().distance_from_pitch_point();
        const auto distance = [&](const T& share) {
            return T(begin + (place + share * overlap_) * path_.base_pitch());
        };
        return {.from_distance = distance(from),
                .to_distance = distance(to),
                .from_width = T((T(1) - from) * width_),
                .to_width = T((T(1) - to) * width_),
                .length = T((to - from) * full_length())};
    }

private:
    struct parts {
        T transverse; // f_a
        T overlap;    // f_b
        T always;     // n_a n_b + n_a f_b + n_b f_a
    };
    constexpr parts broken() const {
        const int a = whole_part(transverse_);
        const int b = whole_part(overlap_);
        const T f_a = transverse_ - T(a);
        const T f_b = overlap_ - T(b);
        return {.transverse = f_a, .overlap = f_b, .always = T(T(a) * T(b) + T(a) * f_b + T(b) * f_a)};
    }
    /// How many lines can reach into the field from before A: the overlap ratio, rounded up.
    constexpr int lines_behind() const {
        const int whole = whole_part(overlap_);
        return T(whole) < overlap_ ? whole + 1 : whole;
    }

    path_of_contact<T> path_;
    T width_;
    T transverse_{0};
    T overlap_{0};
};

} // namespace rackwork

#endif
