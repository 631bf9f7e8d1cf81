// Example gear_pair: every number and word of a pair under its name.
#ifndef GEAR_PAIR_SHEET_HPP
#define GEAR_PAIR_SHEET_HPP

#include <rackwork/core/angle.hpp>
#include <rackwork/finding.hpp>
#include <rackwork/tolerance/size_limits.hpp>

#include <functional>
#include <string>
#include <vector>

namespace gear_pair {

/// A number with its name and unit: mm, in, um, mm^2, in^2, deg, or 1 for counts, ratios and coefficients.
struct named_value {
    std::string name;
    double value;
    std::string unit;
};

/// A word or sentence with its name.
struct named_text {
    std::string name;
    std::string text;
};

/// All that there is to say of a pair. A name is the owner's (pinion, wheel, rack, pair), a point and the quantity's.
struct sheet {
    std::string mate = "wheel"; // what the pinion runs with: wheel or rack
    std::vector<named_value> values;
    std::vector<named_text> texts;
    std::vector<rackwork::finding<double>> findings;
    std::vector<std::string> remarks; // why a measurement is impossible and so has no value

    /// The value of a name, or nullptr.
    const named_value* find(const std::string& name) const;
    /// The text of a name, or nothing.
    std::string text(const std::string& name) const;
};

/// Fills a sheet, one owner after the other.
class sheet_maker {
public:
    /// `length` is the unit of lengths, mm or in.
    sheet_maker(sheet& target, const std::string& length) : target_(target), length_(length) {}

    void start(const std::string& owner) { owner_ = owner; }
    const std::string& owner() const { return owner_; }
    void number(const std::string& name, double value) { add(name, value, "1"); }
    void size(const std::string& name, double value) { add(name, value, length_); }
    void area(const std::string& name, double value) { add(name, value, length_ + "^2"); }
    void turn(const std::string& name, const rackwork::angle<double>& value) { add(name, value.deg(), "deg"); }
    /// A flank tolerance, given in micrometres; it becomes inches where the pair is in inches.
    void tolerance(const std::string& name, double micrometres);
    /// The limits of a size, as greatest_ and least_.
    void limits(const std::string& name, const rackwork::size_limits<double>& limits);
    void text(const std::string& name, const std::string& words) { target_.texts.push_back({owner_ + "." + name, words}); }
    void remark(const std::string& sentence) { target_.remarks.push_back(sentence); }
    void findings(const rackwork::finding_list<double>& list);
    /// Findings about one gear of the pair.
    void findings(const rackwork::finding_list<double>& list, rackwork::finding_subject subject);

    /// Makes the values of a measurement; where it is impossible the reason becomes a remark.
    void measurement(const std::string& what, const std::function<void()>& make);

    /// The value of the present owner, or nullptr.
    const named_value* find(const std::string& name) const { return target_.find(owner_ + "." + name); }

private:
    void add(const std::string& name, double value, const std::string& unit) {
        target_.values.push_back({owner_ + "." + name, value, unit});
    }

    sheet& target_;
    std::string length_;
    std::string owner_;
};

} // namespace gear_pair

#endif
