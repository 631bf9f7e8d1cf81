// Example sensitivity: derivatives by automatic differentiation.
#include "influence.hpp"

#include <boost/math/differentiation/autodiff.hpp>

#include <cmath>

namespace sensitivity {

influence influence_of_tolerances() {
    namespace autodiff = boost::math::differentiation;
    using number = autodiff::autodiff_fvar<double, 1>; // a value and its first derivative

    influence all{};
    all.nominal = results_at(std::array<double, tolerances.size()>{});
    for (std::size_t i = 0; i < tolerances.size(); ++i) {
        std::array<number, tolerances.size()> deviation{};
        deviation[i] = autodiff::make_fvar<double, 1>(0.0); // the one to differentiate by
        const auto values = results_at(deviation);
        for (std::size_t k = 0; k < results.size(); ++k) all.of[i][k] = values[k].derivative(1) * tolerances[i].half_range;
    }
    for (std::size_t k = 0; k < results.size(); ++k) {
        std::array<double, tolerances.size()> upward{};
        std::array<double, tolerances.size()> downward{};
        double squares = 0;
        for (std::size_t i = 0; i < tolerances.size(); ++i) {
            const double change = all.of[i][k];
            all.worst[k] += std::fabs(change);
            squares += change * change;
            upward[i] = change < 0 ? -tolerances[i].half_range : tolerances[i].half_range;
            downward[i] = -upward[i];
        }
        all.likely[k] = std::sqrt(squares);
        all.least[k] = results_at(downward)[k];
        all.greatest[k] = results_at(upward)[k];
    }
    return all;
}

} // namespace sensitivity
