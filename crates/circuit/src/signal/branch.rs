//! One branch of the tree at the frequencies of one block: its line, and the two-port at its node's entry.
#![expect(clippy::needless_range_loop, reason = "loops over lanes index several arrays alike")]

use super::elements::TeeNetwork;
use super::lanes::{GREATEST_ANGLE_RAD, LANES, Phasors, expm1_of_negative, sine_cosine};
use super::line::{Line, root_of_product};

/// A line's constants at the frequencies of one block.
#[derive(Clone, Debug)]
pub(super) struct LineBlock {
    /// Attenuation, neper per metre.
    pub attenuation_np_per_m: [f64; LANES],
    /// Phase, radian per metre.
    pub phase_rad_per_m: [f64; LANES],
    /// Characteristic impedance, ohm.
    pub impedance_ohm: Phasors,
    /// Its inverse, siemens.
    pub admittance_s: Phasors,
    /// Largest of the phases.
    greatest_phase_rad_per_m: f64,
}

impl LineBlock {
    pub(super) const ZERO: Self = Self {
        attenuation_np_per_m: [0.0; LANES],
        phase_rad_per_m: [0.0; LANES],
        impedance_ohm: Phasors::ZERO,
        admittance_s: Phasors::ZERO,
        greatest_phase_rad_per_m: 0.0,
    };

    #[inline(always)]
    pub(super) fn fill(&mut self, line: &Line, frequencies_hz: &[f64; LANES]) {
        self.greatest_phase_rad_per_m = 0.0;
        for (i, &frequency_hz) in frequencies_hz.iter().enumerate() {
            let constants = line.at(frequency_hz);
            let z = constants.series(frequency_hz);
            let y = constants.shunt(frequency_hz);
            let g = root_of_product(z, y);
            let impedance = g / y;
            let admittance = g / z;
            self.attenuation_np_per_m[i] = g.re;
            self.phase_rad_per_m[i] = g.im;
            self.impedance_ohm.re[i] = impedance.re;
            self.impedance_ohm.im[i] = impedance.im;
            self.admittance_s.re[i] = admittance.re;
            self.admittance_s.im[i] = admittance.im;
            self.greatest_phase_rad_per_m = self.greatest_phase_rad_per_m.max(g.im);
        }
    }
}

/// A denominator whose squared magnitude is below this stands for an exact zero, which rounding can only
/// hit in a lossless network at resonance; it is replaced by [`NEAR_ZERO`] so that no infinity arises.
const SQUARE_TAKEN_AS_ZERO: f64 = 1e-120;
const NEAR_ZERO: f64 = 1e-60;

/// From the admittance `far` at the far end of `length_m` of line: adds the input admittance to `near`
/// and gives in `ratio` the far voltage over the near voltage, without its decay `exp(-a)`.
#[inline(always)]
pub(super) fn through_line(
    line: &LineBlock,
    length_m: f64,
    far: &Phasors,
    near: &mut Phasors,
    ratio: &mut Phasors,
) {
    if length_m == 0.0 {
        // A joint: what is below gives the same.
        add(near, far);
        *ratio = Phasors::ONE;
        return;
    }
    let mut h = [0.0; LANES];
    let mut sine = [0.0; LANES];
    let mut cosine = [0.0; LANES];
    for i in 0..LANES {
        h[i] = expm1_of_negative(line.attenuation_np_per_m[i] * length_m);
    }
    if line.greatest_phase_rad_per_m * length_m <= GREATEST_ANGLE_RAD {
        for i in 0..LANES {
            (sine[i], cosine[i]) = sine_cosine(line.phase_rad_per_m[i] * length_m);
        }
    } else {
        for i in 0..LANES {
            (sine[i], cosine[i]) = libm::sincos(line.phase_rad_per_m[i] * length_m);
        }
    }
    let (z0, y0) = (&line.impedance_ohm, &line.admittance_s);
    for i in 0..LANES {
        let (s, c) = (sine[i], cosine[i]);
        // P = 1 + exp(-2gd), M = 1 - exp(-2gd), see the head of the module `signal`
        let decay = 1.0 + h[i];
        let twice_decay2 = 2.0 * decay * decay;
        let loss = -h[i] * (2.0 + h[i]);
        let p_re = loss + twice_decay2 * (c * c);
        let m_re = loss + twice_decay2 * (s * s);
        let m_im = twice_decay2 * (s * c);
        let p_im = -m_im;
        let (y_re, y_im) = (far.re[i], far.im[i]);
        // D = P + Z0 Y M
        let zy_re = z0.re[i] * y_re - z0.im[i] * y_im;
        let zy_im = z0.re[i] * y_im + z0.im[i] * y_re;
        let d_re = p_re + (zy_re * m_re - zy_im * m_im);
        let d_im = p_im + (zy_re * m_im + zy_im * m_re);
        let square = d_re * d_re + d_im * d_im;
        let zero = square < SQUARE_TAKEN_AS_ZERO;
        let d_re = if zero { NEAR_ZERO } else { d_re };
        let d_im = if zero { 0.0 } else { d_im };
        let square = if zero { NEAR_ZERO * NEAR_ZERO } else { square };
        let inverse = 1.0 / square;
        let inverse_re = d_re * inverse;
        let inverse_im = -d_im * inverse;
        // N = Y P + M / Z0
        let n_re = (y_re * p_re - y_im * p_im) + (y0.re[i] * m_re - y0.im[i] * m_im);
        let n_im = (y_re * p_im + y_im * p_re) + (y0.re[i] * m_im + y0.im[i] * m_re);
        near.re[i] += n_re * inverse_re - n_im * inverse_im;
        near.im[i] += n_re * inverse_im + n_im * inverse_re;
        // 2 exp(-jb) / D
        ratio.re[i] = 2.0 * (c * inverse_re + s * inverse_im);
        ratio.im[i] = 2.0 * (c * inverse_im - s * inverse_re);
    }
}

/// From the admittance `far` behind a T network whose two series arms are `near_arm` and `far_arm`: the
/// input admittance and the ratio of voltages, both at the frequencies of the block.
#[inline(never)]
pub(super) fn through_tee(
    tees: &[TeeNetwork; LANES],
    reversed: bool,
    far: &Phasors,
    near: &mut Phasors,
    ratio: &mut Phasors,
) {
    use super::complex::Complex;
    for (i, tee) in tees.iter().enumerate() {
        let (near_arm, far_arm) = if reversed {
            (tee.node_side_ohm, tee.cable_side_ohm)
        } else {
            (tee.cable_side_ohm, tee.node_side_ohm)
        };
        let y = Complex::new(far.re[i], far.im[i]);
        let divide_far = (Complex::ONE + far_arm * y).reciprocal();
        let middle = y * divide_far + tee.shunt_s;
        let divide_near = (Complex::ONE + near_arm * middle).reciprocal();
        let input = middle * divide_near;
        let through = divide_far * divide_near;
        near.re[i] = input.re;
        near.im[i] = input.im;
        ratio.re[i] = through.re;
        ratio.im[i] = through.im;
    }
}

/// `a += b`, element by element.
#[inline(always)]
pub(super) fn add(a: &mut Phasors, b: &Phasors) {
    for i in 0..LANES {
        a.re[i] += b.re[i];
        a.im[i] += b.im[i];
    }
}

/// `a *= b`, element by element.
#[inline(always)]
pub(super) fn multiply(a: &mut Phasors, b: &Phasors) {
    for i in 0..LANES {
        let re = a.re[i] * b.re[i] - a.im[i] * b.im[i];
        let im = a.re[i] * b.im[i] + a.im[i] * b.re[i];
        a.re[i] = re;
        a.im[i] = im;
    }
}
