// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
// Coefficients of the involute function and its inverse. Written by tests/kernel/coefficients.py; what they stand for is
// derived in involute_kernel.hpp.
#ifndef RACKWORK_CORE_INVOLUTE_COEFFICIENTS_HPP
#define RACKWORK_CORE_INVOLUTE_COEFFICIENTS_HPP

#include <array>
#include <cstdint>

namespace rackwork::involute_kernel {

/// A number to about twice the digits of F: the sum of two.
template <class F>
struct split_number {
    F head;
    F rest;
};

/// pi/2.
inline constexpr split_number<double> half_pi_double{1.5707963267948966, 6.123233995736766e-17};
inline constexpr split_number<long double> half_pi_long_double{1.570796326794896619256404e+0L, -2.508278806334166011725879e-20L};

/// pi^2/12; the head is short, so that its product with a short cube is exact.
inline constexpr split_number<double> numerator_at_zero_double{0.8224639892578125, 3.0441663007182362e-06};
inline constexpr split_number<long double> numerator_at_zero_long_double{8.224639892578125000000000e-1L, 3.044166300718236207527964e-6L};

/// Value of the involute function at which the inverse changes from one formula to the other.
inline constexpr double inverse_inv_seam = 0.875;

/// With a third of the upper half of the bits of y: the upper half of the bits of about (3 y)^(1/3).
inline constexpr std::uint64_t cube_root_bits = 0x2aa84000;

/// What is then to be added to all the bits, modulo 2^64, for each 32nd of the significand.
inline constexpr std::array<std::uint64_t, 32> cube_root_corrections{
    0x0000639'000000000,
    0x00003a9'000000000,
    0x00000e5'000000000,
    0xffffdee'000000000,
    0xffffaca'000000000,
    0xffff7c7'000000000,
    0xffff6f8'000000000,
    0xffff786'000000000,
    0xffff7a2'000000000,
    0xffff756'000000000,
    0xffff6b1'000000000,
    0xffff5bc'000000000,
    0xffff47f'000000000,
    0xffff300'000000000,
    0xffff146'000000000,
    0xfffef55'000000000,
    0xfffee0f'000000000,
    0xffff059'000000000,
    0xffff2ec'000000000,
    0xffff4f5'000000000,
    0xffff683'000000000,
    0xffff7a5'000000000,
    0xffff865'000000000,
    0xffff8ce'000000000,
    0xffff8e8'000000000,
    0xffff8b5'000000000,
    0xffff842'000000000,
    0xffffa6a'000000000,
    0xfffffb7'000000000,
    0x00004d1'000000000,
    0x00008b5'000000000,
    0x000088e'000000000};

/// R with inv a = a^3 (pi^2/12 + s R(s)) / (pi^2/4 - s), s = a^2; error relative to the result.
/// Largest error: 2^-32.6.
inline constexpr std::array<double, 5> numerator_float{
    -0.004346522186929575,
    -0.00017199161781657335,
    -7.476578616632379e-06,
    -3.1368600513431254e-07,
    -2.0953185927360012e-08};

/// R with inv a = a^3 (pi^2/12 + s R(s)) / (pi^2/4 - s), s = a^2; error relative to the result.
/// Largest error: 2^-58.1.
inline constexpr std::array<double, 10> numerator_double{
    -0.004346519963687886,
    -0.00017200411228955544,
    -7.453891730251483e-06,
    -3.3143777175739057e-07,
    -1.4860010224856892e-08,
    -6.683053052877287e-10,
    -2.995355294095676e-11,
    -1.4096426725914491e-12,
    -4.496819386513973e-14,
    -5.191384843432623e-15};

/// R with inv a = a^3 (pi^2/12 + s R(s)) / (pi^2/4 - s), s = a^2; error relative to the result.
/// Largest error: 2^-73.4.
inline constexpr std::array<long double, 13> numerator_long_double{
    -4.346519963688046045500579e-3L,
    -1.720041122864311222947935e-4L,
    -7.453891751304421021755505e-6L,
    -3.314377016165747454208709e-7L,
    -1.486014418062311452606078e-8L,
    -6.681476607465221825985796e-10L,
    -3.007143499164300053162149e-11L,
    -1.353768109699860860660562e-12L,
    -6.105087750816198966307329e-14L,
    -2.703547509641016523288924e-15L,
    -1.371230181729398034951727e-16L,
    -2.785732198581607022333348e-18L,
    -5.650142472671184833800782e-19L};

/// S with (1 - e)^(-1/3) = 1 + e S(e), for every e = 1 - c_0^3 / (3 y) that the guess c_0 can leave; error relative to the root.
/// Largest error: 2^-32.6.
inline constexpr std::array<double, 4> cube_root_float{
    0.3333333299619388,
    0.22222470408594838,
    0.17288275696375893,
    0.13392900928747103};

/// S with (1 - e)^(-1/3) = 1 + e S(e), for every e = 1 - c_0^3 / (3 y) that the guess c_0 can leave; error relative to the root.
/// Largest error: 2^-61.2.
inline constexpr std::array<double, 8> cube_root_double{
    0.3333333333333333,
    0.22222222222224833,
    0.1728395061737068,
    0.14403292127457706,
    0.12482852134787435,
    0.11096182064406843,
    0.10044338171785135,
    0.08654900055162046};

/// Q with a = c + y Q(c^2), c^3 = 3 y, up to the seam; error relative to the result.
/// Largest error: 2^-34.4.
inline constexpr std::array<double, 8> near_zero_float{
    -0.39999999281166426,
    0.05142844736710401,
    -0.0038087871637012935,
    -0.00023960929295736635,
    0.0001191767124076356,
    -1.531960901071838e-05,
    3.8063706984997253e-07,
    7.993241876442712e-08};

/// Q with a = c + y Q(c^2), c^3 = 3 y, up to the seam; error relative to the result.
/// Largest error: 2^-57.5.
inline constexpr std::array<double, 14> near_zero_double{
    -0.39999999999999764,
    0.05142857142845236,
    -0.0038095238074181727,
    -0.000237476827809502,
    0.00011572437695837279,
    -1.2012166496781842e-05,
    -1.4983685070590038e-06,
    6.682106769016322e-07,
    -6.925280183497975e-08,
    -1.29457128762251e-08,
    6.053437725686245e-09,
    -1.0938577043832378e-09,
    1.0661997032024075e-10,
    -4.619654278608509e-12};

/// H with pi/2 - a = t + t^3 H(t^2), t = 1/(y + pi/2), from the seam on; error relative to the result.
/// Largest error: 2^-32.9.
inline constexpr std::array<double, 8> near_pole_float{
    0.6666656436000737,
    0.8668121933888796,
    1.3828386623347733,
    2.6805267263733756,
    1.7419299142797817,
    34.67257393060784,
    -100.58948076103529,
    302.6865187037353};

/// H with pi/2 - a = t + t^3 H(t^2), t = 1/(y + pi/2), from the seam on; error relative to the result.
/// Largest error: 2^-57.5.
inline constexpr std::array<double, 16> near_pole_double{
    0.6666666666664017,
    0.8666666668004508,
    1.3904761646480648,
    2.479367738706235,
    4.7120968180636655,
    9.354850194610092,
    18.909339002896058,
    44.58351402644514,
    13.26423115424416,
    1032.0471826956023,
    -7002.321077585859,
    48462.384472834055,
    -217074.01302026308,
    693575.826918923,
    -1332350.6990868337,
    1282859.738247258};

/// A with atan w = w A(w^2), 0 <= w <= 1, for a first approximation; error relative to the result.
/// Largest error: 2^-23.3.
inline constexpr std::array<double, 8> rough_arctangent{
    0.9999999005173761,
    -0.33331989035791815,
    0.19969704893365448,
    -0.14019387835259242,
    0.09914058812123276,
    -0.0594832331584174,
    0.02425022309662244,
    -0.004692672893529193};

} // namespace rackwork::involute_kernel

#endif
