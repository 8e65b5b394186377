//! A device as the stage sees it.

/// A device as the stage sees it. Powers and limits are set by the discrete state.
#[derive(Debug, Clone)]
pub(in crate::startup) struct StageDevice {
    pub node: usize,
    pub capacitance_f: f64,
    pub drop_v: f64,
    pub discharge_s: f64,
    /// Present converter power, W.
    pub power_w: f64,
    /// Present limit of the bridge current, A.
    pub limit_a: f64,
    /// The converter power is taken as constant current below this capacitor voltage, V. Half the
    /// voltage at the start of the step; a step that ends below is refused.
    pub floor_v: f64,
    /// Bridge current, A.
    pub current_a: f64,
    /// What the line is of.
    pub(super) region: Region,
    pub(super) line_s: f64,
    pub(super) line_b: f64,
}

/// What a bridge does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(in crate::startup) enum Region {
    /// The capacitor is above the bus.
    Blocked,
    /// It conducts.
    Conducting,
    /// It is held at its limit.
    Limited,
}
