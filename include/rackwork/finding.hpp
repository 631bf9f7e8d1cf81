// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// What is possible but doubtful about a gear or a pair: the type in which it is reported.
#ifndef RACKWORK_FINDING_HPP
#define RACKWORK_FINDING_HPP

#include "core/scalar.hpp"

#include <array>
#include <cstddef>

namespace rackwork {

/// How much a finding matters.
enum class severity : unsigned char {
    note,    ///< good to know
    warning, ///< works, but look at it
    fault    ///< does not work as it is
};

/// What a finding is about.
enum class finding_subject : unsigned char { gear, pinion, wheel, pair };

/// The kinds of finding.
enum class finding_code : unsigned char {
    undercut,                 ///< the tool cuts away the beginning of the involute
    pointed_tip,              ///< the flanks cross below the tip circle
    thin_tip,                 ///< the tip is thinner than the limit
    span_off_involute,        ///< the anvils of a span measurement do not touch the involute
    span_wider_than_gear,     ///< the face is too narrow for the span measurement
    pin_off_involute,         ///< a pin or ball does not touch the involute
    pin_below_tip,            ///< a pin or ball does not stand out of the tip circle
    pin_on_root,              ///< a pin or ball rests on the root
    chord_off_involute,       ///< a caliper's jaws do not touch the involute
    low_contact_ratio,        ///< too few teeth share the load, or contact is lost
    mate_below_form_diameter, ///< the mate's tip reaches below the beginning of the involute
    low_bottom_clearance,     ///< the mate's tip comes too near to the root, or into it
    no_backlash,              ///< both flanks touch
    overlap,                  ///< the teeth would have to overlap
    tip_cuts_fillet,          ///< the mate's tip goes into the root fillet
    tip_interference,         ///< the tips of an internal pair run into each other outside the path of contact
    axial_assembly_only,      ///< the pinion cannot be put into the internal gear radially
    cutter_trims_tip          ///< a pinion-type cutter cuts away part of the tips, or does not make their whole flank
};

/// One finding: what, how bad, about which gear, the value, the limit that it misses, and a sentence. Lengths in the module's unit.
template <scalar T>
struct finding {
    finding_code code{};
    rackwork::severity severity{};
    finding_subject subject{};
    /// Name of the quantity that `value` and `limit` are values of.
    const char* quantity = "";
    T value{0};
    T limit{0};
    const char* sentence = "";
};

/// Findings in the order in which they were made. Fixed capacity, no allocation, usable in constant expressions.
template <scalar T>
class finding_list {
public:
    static constexpr std::size_t capacity = 24;

    constexpr void add(const finding<T>& f) {
        // A pair has at most 10, either measured gear 6 more: all fit.
        if (size_ < capacity) items_[size_++] = f;
    }
    /// Adds another list's findings as findings about a subject.
    constexpr void add(const finding_list& others, finding_subject subject) {
        for (finding<T> f : others) {
            f.subject = subject;
            add(f);
        }
    }

    constexpr std::size_t size() const { return size_; }
    constexpr bool empty() const { return size_ == 0; }
    constexpr const finding<T>* begin() const { return items_.data(); }
    constexpr const finding<T>* end() const { return items_.data() + size_; }
    constexpr const finding<T>& operator[](std::size_t i) const { return items_[i]; }

    /// True if there is a finding with the code.
    constexpr bool has(finding_code code) const {
        for (const finding<T>& f : *this) {
            if (f.code == code) return true;
        }
        return false;
    }
    /// True if there is a finding with the code about the subject.
    constexpr bool has(finding_code code, finding_subject subject) const {
        for (const finding<T>& f : *this) {
            if (f.code == code && f.subject == subject) return true;
        }
        return false;
    }

private:
    std::array<finding<T>, capacity> items_{};
    std::size_t size_ = 0;
};

/// The limits that findings go by. The defaults are common practice; a designer may have others.
template <scalar T = double>
struct finding_limits {
    /// Least tip thickness, normal section, as a factor of the module. 0.2 is customary for tough, 0.4 for case-hardened teeth.
    T tip_thickness{T(1) / T(5)};
    /// Least contact ratio that is not worth a warning.
    T contact_ratio{T(6) / T(5)};
    /// Least bottom clearance, as a factor of the module.
    T bottom_clearance{T(1) / T(10)};
};

} // namespace rackwork

#endif
