//! What a line search looks at.

/// A step along which the co-content is looked at: what is linear in the fraction added up once, the rest element by element.
#[derive(Default)]
pub(in crate::startup) struct Way {
    /// Derivative of the co-content of cables, conductances and capacitors at the start, W, and how it rises along the step.
    pub(super) linear_w: (f64, f64),
    /// Bus voltage at each device at the start, V, and by how much it changes.
    pub(super) devices: Vec<(f64, f64)>,
}
