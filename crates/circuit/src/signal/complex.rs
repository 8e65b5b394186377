//! A complex number: just what lines and their elements need.

use std::ops::{Add, Div, Mul, Neg, Sub};

/// A complex number, rectangular.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Complex {
    /// Real part.
    pub re: f64,
    /// Imaginary part.
    pub im: f64,
}

impl Complex {
    /// One.
    pub const ONE: Self = Self { re: 1.0, im: 0.0 };

    /// From real and imaginary part.
    pub const fn new(re: f64, im: f64) -> Self {
        Self { re, im }
    }

    /// Magnitude.
    pub fn norm(self) -> f64 {
        libm::hypot(self.re, self.im)
    }

    /// Angle in radians, above -pi, at most pi.
    pub fn angle_rad(self) -> f64 {
        libm::atan2(self.im, self.re)
    }

    /// One over the number.
    pub fn reciprocal(self) -> Self {
        Self::ONE / self
    }
}

impl Add for Complex {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self::new(self.re + other.re, self.im + other.im)
    }
}

impl Sub for Complex {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self::new(self.re - other.re, self.im - other.im)
    }
}

impl Neg for Complex {
    type Output = Self;
    fn neg(self) -> Self {
        Self::new(-self.re, -self.im)
    }
}

impl Mul for Complex {
    type Output = Self;
    fn mul(self, other: Self) -> Self {
        Self::new(self.re * other.re - self.im * other.im, self.re * other.im + self.im * other.re)
    }
}

impl Mul<f64> for Complex {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        Self::new(self.re * factor, self.im * factor)
    }
}

impl Div for Complex {
    type Output = Self;
    /// Plain division by the squared magnitude: the limits of the kernel keep it from overflowing.
    fn div(self, other: Self) -> Self {
        let square = other.re * other.re + other.im * other.im;
        Self::new(
            (self.re * other.re + self.im * other.im) / square,
            (self.im * other.re - self.re * other.im) / square,
        )
    }
}
