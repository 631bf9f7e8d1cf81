// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Writes down what computations give, in double, so that one scalar type can be compared with another.
#pragma once

#include <rackwork/centre_distance.hpp>
#include <rackwork/core/angle.hpp>
#include <rackwork/core/error.hpp>
#include <rackwork/core/point.hpp>
#include <rackwork/measure/chord.hpp>
#include <rackwork/measure/pins.hpp>

#include <string>
#include <utility>
#include <vector>

namespace scalar_support {

using named_values = std::vector<std::pair<std::string, double>>;

/// Writes down what computations give: a value each, or that they were refused.
class notebook {
public:
    template <class F>
    void operator()(const std::string& name, const F& compute) {
        try {
            note(name, compute());
        } catch (const rackwork::geometry_error& error) {
            values_.emplace_back(name + " refused: " + error.cause().quantity, 0);
        }
    }
    const named_values& values() const { return values_; }

private:
    template <class T>
    void note(const std::string& name, const T& value) {
        values_.emplace_back(name, static_cast<double>(value));
    }
    template <class T>
    void note(const std::string& name, const rackwork::angle<T>& a) {
        note(name, a.rad());
        note(name, a.deg());
    }
    template <class T>
    void note(const std::string& name, const rackwork::point<T>& p) {
        note(name, p.x);
        note(name, p.y);
    }
    template <class T>
    void note(const std::string& name, const rackwork::chord<T>& c) {
        note(name, c.thickness);
        note(name, c.height);
    }
    template <class T>
    void note(const std::string& name, const rackwork::pin_position<T>& p) {
        note(name, p.centre_diameter);
        note(name, p.contact_diameter);
    }
    template <class V>
    void note(const std::string& name, const rackwork::for_both<V>& both) {
        note(name, both.pinion);
        note(name, both.wheel);
    }

    named_values values_;
};

} // namespace scalar_support
