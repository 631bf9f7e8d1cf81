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
inline constexpr double inverse_inv_seam = 0.625;

/// With a third of the upper half of the bits of y: the upper half of the bits of about (3 y)^(1/3).
inline constexpr std::uint64_t cube_root_bits = 0x2aa84000;

/// What is then to be added to all the bits, modulo 2^64, for each 128th of the significand.
inline constexpr std::array<std::uint64_t, 128> cube_root_corrections{
    0x0000728'000000000, 0x000068f'000000000, 0x00005f1'000000000, 0x0000550'000000000,
    0x00004ac'000000000, 0x0000405'000000000, 0x000035a'000000000, 0x00002ac'000000000,
    0x00001fa'000000000, 0x0000145'000000000, 0x000008d'000000000, 0xfffffd2'000000000,
    0xfffff15'000000000, 0xffffe54'000000000, 0xffffd91'000000000, 0xffffccb'000000000,
    0xffffc02'000000000, 0xffffb36'000000000, 0xffffa68'000000000, 0xffff997'000000000,
    0xffff8c5'000000000, 0xffff7ef'000000000, 0xffff718'000000000, 0xffff686'000000000,
    0xffff6b1'000000000, 0xffff6ec'000000000, 0xffff71f'000000000, 0xffff74a'000000000,
    0xffff76d'000000000, 0xffff788'000000000, 0xffff79d'000000000, 0xffff7aa'000000000,
    0xffff7b0'000000000, 0xffff7af'000000000, 0xffff7a8'000000000, 0xffff79b'000000000,
    0xffff788'000000000, 0xffff76f'000000000, 0xffff750'000000000, 0xffff72c'000000000,
    0xffff703'000000000, 0xffff6d4'000000000, 0xffff6a0'000000000, 0xffff667'000000000,
    0xffff62a'000000000, 0xffff5e8'000000000, 0xffff5a1'000000000, 0xffff555'000000000,
    0xffff506'000000000, 0xffff4b2'000000000, 0xffff45a'000000000, 0xffff3fe'000000000,
    0xffff39e'000000000, 0xffff33a'000000000, 0xffff2d3'000000000, 0xffff268'000000000,
    0xffff1f9'000000000, 0xffff187'000000000, 0xffff111'000000000, 0xffff098'000000000,
    0xffff01b'000000000, 0xfffef9c'000000000, 0xfffef19'000000000, 0xfffee93'000000000,
    0xfffee0a'000000000, 0xfffed7e'000000000, 0xfffeda7'000000000, 0xfffee7e'000000000,
    0xfffef4a'000000000, 0xffff00b'000000000, 0xffff0c3'000000000, 0xffff171'000000000,
    0xffff215'000000000, 0xffff2b1'000000000, 0xffff344'000000000, 0xffff3ce'000000000,
    0xffff44f'000000000, 0xffff4c9'000000000, 0xffff53b'000000000, 0xffff5a5'000000000,
    0xffff609'000000000, 0xffff665'000000000, 0xffff6ba'000000000, 0xffff708'000000000,
    0xffff750'000000000, 0xffff792'000000000, 0xffff7cd'000000000, 0xffff803'000000000,
    0xffff833'000000000, 0xffff85d'000000000, 0xffff881'000000000, 0xffff8a0'000000000,
    0xffff8ba'000000000, 0xffff8ce'000000000, 0xffff8de'000000000, 0xffff8e9'000000000,
    0xffff8ee'000000000, 0xffff8f0'000000000, 0xffff8ec'000000000, 0xffff8e4'000000000,
    0xffff8d8'000000000, 0xffff8c7'000000000, 0xffff8b2'000000000, 0xffff899'000000000,
    0xffff87c'000000000, 0xffff85b'000000000, 0xffff836'000000000, 0xffff80e'000000000,
    0xffff81e'000000000, 0xffff930'000000000, 0xffffac1'000000000, 0xffffc42'000000000,
    0xffffdb7'000000000, 0xfffff1f'000000000, 0x000007a'000000000, 0x00001ca'000000000,
    0x0000310'000000000, 0x000044c'000000000, 0x000057b'000000000, 0x000069f'000000000,
    0x00007ba'000000000, 0x00008cb'000000000, 0x00009c6'000000000, 0x00009ea'000000000,
    0x0000964'000000000, 0x00008db'000000000, 0x000084e'000000000, 0x00007bd'000000000};

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
/// Largest error: 2^-35.6.
inline constexpr std::array<double, 3> cube_root_float{
    0.33333333360158685,
    0.22222560329759156,
    0.17281865182124082};

/// S with (1 - e)^(-1/3) = 1 + e S(e), for every e = 1 - c_0^3 / (3 y) that the guess c_0 can leave; error relative to the root.
/// Largest error: 2^-57.3.
inline constexpr std::array<double, 6> cube_root_double{
    0.3333333333333336,
    0.2222222222214764,
    0.17283950610181875,
    0.14403293875289883,
    0.12483373737201942,
    0.11153451405730781};

/// Q with a = c + y Q(c^2), c^3 = 3 y, up to the seam; error relative to the result.
/// Largest error: 2^-37.0.
inline constexpr std::array<double, 8> near_zero_float{
    -0.39999999847779977,
    0.05142853885178055,
    -0.0038092843958690524,
    -0.0002383322212459601,
    0.0001174263285153136,
    -1.4002817484266628e-05,
    -1.3247273785143624e-07,
    1.609176527533566e-07};

/// Q with a = c + y Q(c^2), c^3 = 3 y, up to the seam; error relative to the result.
/// Largest error: 2^-58.3.
inline constexpr std::array<double, 13> near_zero_double{
    -0.40000000000000124,
    0.05142857142863006,
    -0.0038095238104827365,
    -0.00023747680114140422,
    0.00011572423982109701,
    -1.2011712492266028e-05,
    -1.4993856871545815e-06,
    6.697969017949657e-07,
    -7.099496261897842e-08,
    -1.1602489102556325e-08,
    5.34163103374915e-09,
    -8.469085008154607e-10,
    5.6105169651064416e-11};

/// H with pi/2 - a = t + t^3 H(t^2), t = 1/(y + pi/2), from the seam on; error relative to the result.
/// Largest error: 2^-31.6.
inline constexpr std::array<double, 9> near_pole_float{
    0.6666691689537999,
    0.866318596504711,
    1.4085129099540699,
    2.002603977938742,
    11.965928737002654,
    -57.24950116021191,
    387.15114676879887,
    -1107.8510361543,
    1715.3613837590838};

/// H with pi/2 - a = t + t^3 H(t^2), t = 1/(y + pi/2), from the seam on; error relative to the result.
/// Largest error: 2^-57.9.
inline constexpr std::array<double, 19> near_pole_double{
    0.6666666666669074,
    0.8666666665324927,
    1.3904762191700772,
    2.4793617871859768,
    4.7125001690528885,
    9.33641857982212,
    19.50767795647521,
    30.293363059732098,
    270.4485275933742,
    -2512.830697705989,
    30799.214364734984,
    -264926.15064557723,
    1801974.5979067383,
    -9348700.89537869,
    36647314.938834235,
    -104833804.31945595,
    207561255.61930385,
    -254892968.53406167,
    148378536.53354022};

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
