// Example gear_pair: every number and word of a pair under its name.
#include "sheet.hpp"

#include <rackwork/core/error.hpp>

#include <cstddef>

namespace gear_pair {

const named_value* sheet::find(const std::string& name) const {
    for (const named_value& v : values) {
        if (v.name == name) return &v;
    }
    return nullptr;
}

std::string sheet::text(const std::string& name) const {
    for (const named_text& t : texts) {
        if (t.name == name) return t.text;
    }
    return {};
}

void sheet_maker::tolerance(const std::string& name, double micrometres) {
    if (length_ == "in") {
        add(name, micrometres / 25400, "in");
    } else {
        add(name, micrometres, "um");
    }
}

void sheet_maker::limits(const std::string& name, const rackwork::size_limits<double>& limits) {
    size("greatest_" + name, limits.upper);
    size("least_" + name, limits.lower);
}

void sheet_maker::findings(const rackwork::finding_list<double>& list) {
    target_.findings.insert(target_.findings.end(), list.begin(), list.end());
}

void sheet_maker::findings(const rackwork::finding_list<double>& list, rackwork::finding_subject subject) {
    rackwork::finding_list<double> about;
    about.add(list, subject);
    findings(about);
}

void sheet_maker::measurement(const std::string& what, const std::function<void()>& make) {
    const std::size_t before = target_.values.size();
    try {
        make();
    } catch (const rackwork::geometry_error& error) {
        target_.values.resize(before);
        target_.remarks.push_back("No " + what + " of the " + owner_ + ": " + error.what() + ".");
    }
}

} // namespace gear_pair
