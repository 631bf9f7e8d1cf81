// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Makes the mistake that it is asked for. Under the sanitizers it must not get past it.
#include <cstddef>
#include <iostream>
#include <limits>
#include <memory>
#include <string>

int main(int argument_count, char** arguments) {
    const std::string mistake = argument_count > 1 ? arguments[1] : "";
    volatile int one = 1;
    volatile int result = 0;
    if (mistake == "overflow") {
        result = (std::numeric_limits<int>::max)() + one;
    } else if (mistake == "address") {
        volatile std::size_t one_past_the_end = 4;
        const auto numbers = std::make_unique<int[]>(4);
        result = numbers[one_past_the_end];
    } else if (mistake == "conversion") {
        volatile double large = 1e300;
        result = static_cast<int>(large);
    } else {
        std::cerr << "unknown mistake '" << mistake << "'\n";
        return 2;
    }
    std::cout << "still running, with " << result << '\n';
}
