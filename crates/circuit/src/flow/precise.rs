//! The sweeps of `enclosure` in double-double arithmetic, for states so close to collapse that rounding in
//! ordinary arithmetic would need an enclosure wider than asked for.
//!
//! A number is the unevaluated sum of two. Sums of nonnegative numbers, products and quotients built as
//! below have relative errors of at most `16 u^2`, `u = 2^-53` (Joldes, Muller and Popescu, Tight and
//! rigorous error bounds for basic building blocks of double-word arithmetic, ACM TOMS 44, 2017: at most
//! 3, 5 and 15 `u^2` and terms in `u^3`; numbers from memory), in the absence of overflow and underflow.
//! So the drops of a sweep of `N` operations carry at most `16 N u^2`, about `N 2e-31`, relative.

use super::{Loads, Source, Tree};

/// The sum of two floating-point numbers, the second below the last place of the first.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Double {
    pub high: f64,
    pub low: f64,
}

/// Exact sum of two numbers (Knuth).
fn two_sum(a: f64, b: f64) -> Double {
    let high = a + b;
    let shadow = high - a;
    Double { high, low: (a - (high - shadow)) + (b - shadow) }
}

/// Exact sum where `a` is the larger in magnitude, or zero (Dekker).
fn fast_two_sum(a: f64, b: f64) -> Double {
    let high = a + b;
    Double { high, low: b - (high - a) }
}

/// Exact product of two numbers (Dekker, with Veltkamp's splitting).
fn two_product(a: f64, b: f64) -> Double {
    let split = |x: f64| {
        let scaled = 134_217_729.0 * x;
        let high = scaled - (scaled - x);
        (high, x - high)
    };
    let high = a * b;
    let ((a1, a2), (b1, b2)) = (split(a), split(b));
    Double { high, low: ((a1 * b1 - high) + a1 * b2 + a2 * b1) + a2 * b2 }
}

impl Double {
    fn of(value: f64) -> Self {
        Self { high: value, low: 0.0 }
    }

    /// Exact difference of two numbers.
    pub fn difference(a: f64, b: f64) -> Self {
        two_sum(a, -b)
    }

    fn plus(self, other: Self) -> Self {
        let sum = two_sum(self.high, other.high);
        let low = two_sum(self.low, other.low);
        let carried = fast_two_sum(sum.high, sum.low + low.high);
        fast_two_sum(carried.high, carried.low + low.low)
    }

    pub fn minus(self, other: Self) -> Self {
        self.plus(Self { high: -other.high, low: -other.low })
    }

    fn times(self, other: Self) -> Self {
        let product = two_product(self.high, other.high);
        fast_two_sum(product.high, product.low + (self.high * other.low + self.low * other.high))
    }

    fn over(self, other: Self) -> Self {
        let first = self.high / other.high;
        let rest = self.minus(other.times(Self::of(first)));
        let second = rest.high / other.high;
        let rest = rest.minus(other.times(Self::of(second)));
        fast_two_sum(first, second).plus(Self::of(rest.high / other.high))
    }
}

/// Scratch of the precise sweep; allocated only where it is needed.
pub(super) struct PreciseSweep {
    slope_s: Vec<Double>,
    current_a: Vec<Double>,
    drop_v: Vec<Double>,
    /// Largest error of a drop, V.
    allowance_v: f64,
}

impl PreciseSweep {
    pub fn new(tree: &Tree, source: &Source) -> Self {
        let zeros = vec![Double::default(); tree.len()];
        let squared = (f64::EPSILON / 2.0) * (f64::EPSILON / 2.0);
        // No drop of interest exceeds the supply voltage; doubled for the comparison.
        let allowance_v = 2.0 * (16.0 * tree.rounding_steps(true) + 64.0) * squared * source.voltage_v;
        Self { slope_s: zeros.clone(), current_a: zeros.clone(), drop_v: zeros, allowance_v }
    }

    /// The drops `V0 - T(w)`; `false` when `w` is outside the domain.
    fn drops(&mut self, tree: &Tree, source: &Source, loads: &Loads<'_>, w: &[f64]) -> bool {
        let parent = tree.parents();
        let resistance = |node: usize| {
            Double::of(if node == 0 { source.resistance_ohm } else { tree.resistances_ohm()[node] })
        };
        self.slope_s.fill(Double::default());
        self.current_a.fill(Double::default());
        for node in (0..tree.len()).rev() {
            if !(w[node] > 0.0) {
                return false;
            }
            let mut current = self.current_a[node].plus(Double::of(loads.current(node)));
            let power = loads.power(node);
            if power > 0.0 {
                let x = Double::difference(w[node], loads.drop(node));
                if !(x.high > 0.0) {
                    return false;
                }
                current = current.plus(Double::of(power).over(x));
            }
            let slope = self.slope_s[node].plus(Double::of(loads.conductance(node)));
            let pivot = Double::of(1.0).plus(resistance(node).times(slope));
            let (slope, current) = (slope.over(pivot), current.over(pivot));
            self.slope_s[node] = slope;
            self.current_a[node] = current;
            if node > 0 {
                let up = parent[node] as usize;
                self.slope_s[up] = self.slope_s[up].plus(slope);
                self.current_a[up] = self.current_a[up].plus(current);
            }
        }
        for (node, &up) in parent.iter().enumerate() {
            let above = if node == 0 { Double::default() } else { self.drop_v[up as usize] };
            let voltage = Double::of(source.voltage_v).minus(above);
            let voltage = if voltage.high > 0.0 { voltage } else { Double::default() };
            let current = self.current_a[node].plus(self.slope_s[node].times(voltage));
            self.drop_v[node] = above.plus(resistance(node).times(current));
        }
        true
    }

    /// `T(w) - w`, V, rounded to ordinary numbers; `false` when `w` is outside the domain.
    pub fn residual(
        &mut self,
        tree: &Tree,
        source: &Source,
        loads: &Loads<'_>,
        w: &[f64],
        out: &mut [f64],
    ) -> bool {
        if !self.drops(tree, source, loads, w) {
            return false;
        }
        for ((out, w), drop) in out.iter_mut().zip(w).zip(&self.drop_v) {
            *out = Double::difference(source.voltage_v, *w).minus(*drop).high;
        }
        true
    }

    /// [`super::enclosure::is_strictly_below_image`] with the loads as they are.
    pub fn is_strictly_below_image(
        &mut self,
        tree: &Tree,
        source: &Source,
        loads: &Loads<'_>,
        w: &[f64],
    ) -> bool {
        self.drops(tree, source, loads, w)
            && self.drop_v.iter().zip(w).all(|(drop, w)| {
                Double::difference(source.voltage_v, *w).minus(*drop).high > self.allowance_v
            })
    }

    /// [`super::enclosure::is_above_image`] with the loads as they are.
    pub fn is_above_image(&mut self, tree: &Tree, source: &Source, loads: &Loads<'_>, u: &[f64]) -> bool {
        self.drops(tree, source, loads, u)
            && self.drop_v.iter().zip(u).all(|(drop, u)| {
                Double::difference(source.voltage_v, *u).minus(*drop).high < -self.allowance_v
            })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Quotients and products against exact rational identities: (1/3) 3 = 1, and 1/7 to 106 bits.
    #[test]
    fn carries_twice_the_digits() {
        let third = Double::of(1.0).over(Double::of(3.0));
        let one = third.times(Double::of(3.0)).minus(Double::of(1.0));
        assert!(one.high.abs() < 1e-31, "{one:?}");
        let seventh = Double::of(1.0).over(Double::of(7.0));
        assert_eq!(seventh.high, 1.0 / 7.0);
        let back = seventh.times(Double::of(7.0)).minus(Double::of(1.0));
        assert!(back.high.abs() < 1e-31, "{back:?}");
        let tiny = Double::of(1.0).plus(Double::of(1e-25)).minus(Double::of(1.0));
        assert!((tiny.high / 1e-25 - 1.0).abs() < 1e-6);
    }

    #[test]
    fn exact_products() {
        // (2^27 + 1)^2 = 2^54 + 2^28 + 1 does not fit one double.
        let x = 134_217_729.0;
        let product = two_product(x, x);
        assert_eq!(product.high, 18_014_398_777_917_440.0);
        assert_eq!(product.low, 1.0);
    }
}
