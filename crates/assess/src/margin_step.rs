//! How much of a margin a device has, in four steps.

/// Margins of this many thin margins and more count as ample: our own choice, said in the legend of the elevation.
const AMPLE_IN_THIN: f64 = 3.0;

/// Steps of the voltage scale.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum MarginStep {
    /// Below the limit.
    Below,
    /// A thin margin.
    Thin,
    /// A fair margin.
    Fair,
    /// An ample margin.
    Ample,
}

impl MarginStep {
    /// The step of a margin in volts, where margins below `thin_v` are thin.
    pub fn of(margin_v: f64, thin_v: f64) -> Self {
        if margin_v < 0.0 {
            MarginStep::Below
        } else if margin_v < thin_v {
            MarginStep::Thin
        } else if margin_v < Self::ample_v(thin_v) {
            MarginStep::Fair
        } else {
            MarginStep::Ample
        }
    }

    /// Its word for programs, and the class that it is drawn by.
    pub fn word(self) -> &'static str {
        match self {
            MarginStep::Below => "below",
            MarginStep::Thin => "thin",
            MarginStep::Fair => "fair",
            MarginStep::Ample => "ample",
        }
    }

    /// The least margin in volts that is ample.
    pub fn ample_v(thin_v: f64) -> f64 {
        AMPLE_IN_THIN * thin_v
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_limit_belongs_to_the_better_step() {
        let steps = [-0.1, 0.0, 0.9, 1.0, 2.9, 3.0].map(|margin_v| MarginStep::of(margin_v, 1.0));
        use MarginStep::{Ample, Below, Fair, Thin};
        assert_eq!(steps, [Below, Thin, Thin, Fair, Fair, Ample]);
    }
}
