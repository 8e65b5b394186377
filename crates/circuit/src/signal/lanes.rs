//! Several frequencies side by side: a block of complex numbers as separate arrays of real and imaginary
//! parts, and `expm1`, sine and cosine written so that the compiler turns them into vector code.
//!
//! Only additions, multiplications, divisions, roots and operations on bits are used, so every machine
//! gives the same bits.

use super::line::DB_PER_NEPER;

/// Frequencies in one block.
pub const LANES: usize = 16;

/// Complex numbers at the frequencies of one block.
#[derive(Clone, Copy, Debug)]
pub struct Phasors {
    /// Real parts.
    pub re: [f64; LANES],
    /// Imaginary parts.
    pub im: [f64; LANES],
}

impl Phasors {
    pub(super) const ZERO: Self = Self { re: [0.0; LANES], im: [0.0; LANES] };
    pub(super) const ONE: Self = Self { re: [1.0; LANES], im: [0.0; LANES] };
}

/// Adding and taking away 1.5 * 2^52 rounds to the nearest whole number, whose two's complement is then
/// in the low bits of the sum.
const ROUND: f64 = 6_755_399_441_055_744.0;

/// `ln 2` in two parts, the first with enough trailing zeros that whole multiples are exact (values as
/// in the widely used fdlibm).
const LN2_HIGH: f64 = 6.931_471_803_691_238e-1;
const LN2_LOW: f64 = 1.908_214_929_270_587_7e-10;

/// Beyond this the exponential of `-2x` is below 1e-39 and does not touch `1 +- exp(-2x)`.
const GREATEST_ARGUMENT: f64 = 45.0;

/// `exp(-x) - 1` for `x >= 0`; held at `x = 45` beyond it.
#[inline(always)]
pub(super) fn expm1_of_negative(x: f64) -> f64 {
    let x = if x < GREATEST_ARGUMENT { -x } else { -GREATEST_ARGUMENT };
    let shifted = x * std::f64::consts::LOG2_E + ROUND;
    let n = shifted - ROUND;
    let r = (x - n * LN2_HIGH) - n * LN2_LOW;
    // Taylor series of (exp(r) - 1 - r) / r^2 for |r| <= 0.3466; the first term left out is below 1e-17 of
    // r. Summed in pairs, pairs of pairs and so on, which a processor can do side by side.
    let r2 = r * r;
    let r4 = r2 * r2;
    let low = (0.5 + r * (1.0 / 6.0)) + r2 * (1.0 / 24.0 + r * (1.0 / 120.0));
    let middle = (1.0 / 720.0 + r * (1.0 / 5_040.0)) + r2 * (1.0 / 40_320.0 + r * (1.0 / 362_880.0));
    let high = (1.0 / 3_628_800.0 + r * (1.0 / 39_916_800.0))
        + r2 * (1.0 / 479_001_600.0 + r * (1.0 / 6_227_020_800.0));
    let p = low + r4 * (middle + r4 * high);
    let p = r + r2 * p;
    // 2^n from the whole number in the low bits of the sum: n is -65 to 0.
    let power = f64::from_bits(shifted.to_bits().wrapping_add(1023) << 52);
    power * p + (power - 1.0)
}

/// Largest angle that [`sine_cosine`] reduces correctly (the multiple of pi/2 must fit 20 bits).
pub(super) const GREATEST_ANGLE_RAD: f64 = 1.0e6;

/// pi/2 in three parts of 33 bits each (as in fdlibm), so that multiples up to 2^20 are exact.
const HALF_PI_1: f64 = 1.570_796_326_734_125_6;
const HALF_PI_2: f64 = 6.077_100_506_303_966e-11;
const HALF_PI_3: f64 = 2.022_266_248_795_950_6e-21;

/// Sine and cosine of `x`, `0 <= x <=` [`GREATEST_ANGLE_RAD`].
#[inline(always)]
pub(super) fn sine_cosine(x: f64) -> (f64, f64) {
    let shifted = x * std::f64::consts::FRAC_2_PI + ROUND;
    let n = shifted - ROUND;
    let quadrant = shifted.to_bits();
    let r = ((x - n * HALF_PI_1) - n * HALF_PI_2) - n * HALF_PI_3;
    let z = r * r;
    // Taylor series for |r| <= pi/4; the first terms left out are below 2e-17 and 3e-19.
    let z2 = z * z;
    let z4 = z2 * z2;
    let low = (-1.0 / 6.0 + z * (1.0 / 120.0)) + z2 * (-1.0 / 5_040.0 + z * (1.0 / 362_880.0));
    let high = (-1.0 / 39_916_800.0 + z * (1.0 / 6_227_020_800.0))
        + z2 * (-1.0 / 1_307_674_368_000.0 + z * (1.0 / 355_687_428_096_000.0));
    let sine = r + r * (z * (low + z4 * high));
    let low = (1.0 / 24.0 + z * (-1.0 / 720.0)) + z2 * (1.0 / 40_320.0 + z * (-1.0 / 3_628_800.0));
    let high = (1.0 / 479_001_600.0 + z * (-1.0 / 87_178_291_200.0)) + z2 * (1.0 / 20_922_789_888_000.0);
    let cosine = 1.0 - (0.5 * z - z2 * (low + z4 * high));
    // Odd quadrants exchange the two; the signs follow from the two low bits of the quadrant.
    let exchange = (quadrant & 1).wrapping_neg();
    let sine_bits = (sine.to_bits() & !exchange) | (cosine.to_bits() & exchange);
    let cosine_bits = (cosine.to_bits() & !exchange) | (sine.to_bits() & exchange);
    (
        f64::from_bits(sine_bits ^ ((quadrant & 2) << 62)),
        f64::from_bits(cosine_bits ^ ((quadrant.wrapping_add(1) & 2) << 62)),
    )
}

/// Bits of about `sqrt(1/2)`: numbers are split into a power of two and a part from there to `sqrt(2)`.
const ROOT_HALF_BITS: u64 = 0x3fe6_a09e << 32;
const ONE_BITS: u64 = 0x3ff0_0000 << 32;

/// Natural logarithm of a positive normal number.
#[inline(always)]
pub(super) fn natural_log(x: f64) -> f64 {
    let bits = x.to_bits().wrapping_add(ONE_BITS - ROOT_HALF_BITS);
    // The biased exponent as a number: put under the leading bit of 2^52.
    let n = f64::from_bits((bits >> 52) | 0x4330_0000_0000_0000) - (4_503_599_627_370_496.0 + 1023.0);
    let f = f64::from_bits((bits & 0x000f_ffff_ffff_ffff).wrapping_add(ROOT_HALF_BITS)) - 1.0;
    // log(1 + f) = f - f^2/2 + s (f^2/2 + R(s^2)), s = f / (2 + f); R is the polynomial used in fdlibm.
    let s = f / (2.0 + f);
    let z = s * s;
    let w = z * z;
    let even = w * (0.399_999_999_994_094_2 + w * (0.222_221_984_321_497_84 + w * 0.153_138_376_992_093_73));
    let odd = z
        * (0.666_666_666_666_673_5
            + w * (0.285_714_287_436_623_9 + w * (0.181_835_721_616_180_5 + w * 0.147_981_986_051_165_86)));
    let half_square = 0.5 * f * f;
    n * LN2_HIGH - ((half_square - (s * (half_square + (odd + even)) + n * LN2_LOW)) - f)
}

/// `20 log10 |V exp(-a)|` of a voltage that the kernel keeps within 2^+-300 or so, hence its square within 2^+-602.
#[inline(always)]
pub(super) fn gain_db(re: f64, im: f64, attenuation_np: f64) -> f64 {
    let square = re * re + im * im;
    0.5 * DB_PER_NEPER * natural_log(square) - DB_PER_NEPER * attenuation_np
}

#[cfg(test)]
mod tests {
    use super::*;

    fn units_in_last_place(got: f64, want: f64) -> f64 {
        if got == want {
            return 0.0;
        }
        (got - want).abs() / (want.abs() * f64::EPSILON).max(f64::MIN_POSITIVE)
    }

    /// Against the `libm` crate, an outside reference library.
    #[test]
    fn expm1_agrees_with_libm() {
        let mut x = 1e-30;
        while x < 44.9 {
            let off = units_in_last_place(expm1_of_negative(x), libm::expm1(-x));
            assert!(off < 2.0, "{x}: {off} units");
            x *= 1.0007;
        }
        assert_eq!(expm1_of_negative(0.0), 0.0);
        assert_eq!(expm1_of_negative(1e300), expm1_of_negative(45.0));
        assert!((expm1_of_negative(f64::INFINITY) + 1.0).abs() < 1e-19);
    }

    /// Against the `libm` crate, an outside reference library.
    #[test]
    fn logarithm_agrees_with_libm() {
        let mut x = 1e-300;
        while x < 1e300 {
            let off = units_in_last_place(natural_log(x), libm::log(x));
            assert!(off < 2.0, "{x}: {off} units");
            x *= 1.003;
        }
        for k in -1000..=1000 {
            let x = 1.0 + f64::from(k) * 1e-7;
            assert!(units_in_last_place(natural_log(x), libm::log(x)) < 2.0, "{x}");
        }
        assert_eq!(natural_log(1.0), 0.0);
    }

    /// Against the `libm` crate, an outside reference library.
    #[test]
    fn sine_and_cosine_agree_with_libm() {
        let mut x = 1e-30;
        while x < GREATEST_ANGLE_RAD {
            let (s, c) = sine_cosine(x);
            let (sine, cosine) = libm::sincos(x);
            let (ds, dc) = (units_in_last_place(s, sine), units_in_last_place(c, cosine));
            assert!(ds < 2.0 && dc < 2.0, "{x}: {ds} and {dc} units");
            x *= 1.0003;
        }
        // Close to multiples of pi/2, where the reduction is hardest.
        for k in 1..200_000_u32 {
            let x = f64::from(k) * std::f64::consts::FRAC_PI_2;
            let (s, c) = sine_cosine(x);
            let (sine, cosine) = libm::sincos(x);
            assert!((s - sine).abs() <= 4e-16 * sine.abs() + 1e-24, "{x}");
            assert!((c - cosine).abs() <= 4e-16 * cosine.abs() + 1e-24, "{x}");
        }
        assert_eq!(sine_cosine(0.0), (0.0, 1.0));
    }
}
