// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Says whether the compiler fuses a product and a sum into one rounding, and fails if another behaviour is expected.
#include <cstdlib>
#include <iostream>
#include <string>

int main(int argument_count, char** arguments) {
    // (1 + 2^-30)^2 - 1 - 2^-29 is 2^-60 in one rounding; a product rounded by itself loses it.
    volatile double factor = 1 + 0x1p-30;
    volatile double subtrahend = -(1 + 0x1p-29);
    const double a = factor;
    const double b = subtrahend;
    const double remainder = a * a + b;
    const std::string behaviour = remainder == 0 ? "separate" : "fused";
    std::cout << "a product and a sum are rounded: " << behaviour << '\n';
    if (argument_count < 2 || behaviour == arguments[1]) return EXIT_SUCCESS;
    std::cout << "expected: " << arguments[1] << '\n';
    return EXIT_FAILURE;
}
