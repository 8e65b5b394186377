//! The source and the loads of a flow problem.

use std::fmt;

/// An ideal direct voltage behind a resistance, feeding the root.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Source {
    /// Open-circuit voltage, V, above zero.
    pub voltage_v: f64,
    /// Resistance between the ideal voltage and the root, ohm, >= 0.
    pub resistance_ohm: f64,
}

/// Loads of every node: power (W) behind a rectifier drop (V), current (A), conductance (S).
///
/// An empty slice stands for zeros. A drop only matters where there is a power.
#[derive(Clone, Copy, Debug, Default)]
pub struct Loads<'a> {
    /// Constant power, W.
    pub power_w: &'a [f64],
    /// Constant current, A.
    pub current_a: &'a [f64],
    /// Conductance of resistive loads, S.
    pub conductance_s: &'a [f64],
    /// Voltage dropped by the rectifier in front of the constant power, V.
    pub drop_v: &'a [f64],
}

/// A source or load that the solver cannot take.
#[derive(Clone, Debug, PartialEq)]
pub enum LoadError {
    /// An array is neither empty nor as long as the tree.
    Length {
        /// Which quantity.
        quantity: &'static str,
        /// Its entries.
        entries: usize,
        /// Nodes of the tree.
        nodes: usize,
    },
    /// A load is negative or not finite.
    Value {
        /// Which quantity, with its unit.
        quantity: &'static str,
        /// The node.
        node: usize,
        /// The value.
        value: f64,
    },
    /// The source voltage is not above zero and finite.
    SourceVoltage {
        /// The value, V.
        voltage_v: f64,
    },
    /// The source resistance is negative or not finite.
    SourceResistance {
        /// The value, ohm.
        resistance_ohm: f64,
    },
}

impl fmt::Display for LoadError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Length { quantity, entries, nodes } => {
                write!(f, "{entries} entries of {quantity} for {nodes} nodes")
            }
            Self::Value { quantity, node, value } => {
                write!(f, "{quantity} of node {node} is {value}; it must be finite and >= 0")
            }
            Self::SourceVoltage { voltage_v } => {
                write!(f, "the source voltage is {voltage_v} V; it must be finite and > 0")
            }
            Self::SourceResistance { resistance_ohm } => {
                write!(f, "the source resistance is {resistance_ohm} ohm; it must be finite and >= 0")
            }
        }
    }
}

impl std::error::Error for LoadError {}

impl Source {
    /// # Errors
    /// [`LoadError`] when the voltage is not above zero or the resistance negative, or either not finite.
    pub fn check(&self) -> Result<(), LoadError> {
        if !(self.voltage_v.is_finite() && self.voltage_v > 0.0) {
            return Err(LoadError::SourceVoltage { voltage_v: self.voltage_v });
        }
        if !(self.resistance_ohm.is_finite() && self.resistance_ohm >= 0.0) {
            return Err(LoadError::SourceResistance { resistance_ohm: self.resistance_ohm });
        }
        Ok(())
    }
}

impl<'a> Loads<'a> {
    /// Loads of constant power alone.
    #[must_use]
    pub fn of_power(power_w: &'a [f64]) -> Self {
        Self { power_w, ..Self::default() }
    }

    /// Whether only constant powers without rectifier drop are present (the fast case).
    #[must_use]
    pub fn is_power_only(&self) -> bool {
        !self.power_w.is_empty()
            && self.current_a.is_empty()
            && self.conductance_s.is_empty()
            && self.drop_v.is_empty()
    }

    /// Power of a node, W.
    #[inline]
    #[must_use]
    pub fn power(&self, node: usize) -> f64 {
        entry(self.power_w, node)
    }

    /// Current of a node, A.
    #[inline]
    #[must_use]
    pub fn current(&self, node: usize) -> f64 {
        entry(self.current_a, node)
    }

    /// Conductance of a node, S.
    #[inline]
    #[must_use]
    pub fn conductance(&self, node: usize) -> f64 {
        entry(self.conductance_s, node)
    }

    /// Rectifier drop of a node, V.
    #[inline]
    #[must_use]
    pub fn drop(&self, node: usize) -> f64 {
        entry(self.drop_v, node)
    }

    /// Current drawn by a node at the voltage `voltage_v`, A, with all loads scaled by `factor`.
    #[inline]
    #[must_use]
    pub fn current_at(&self, node: usize, voltage_v: f64, factor: f64) -> f64 {
        let power = self.power(node);
        let by_power = if power > 0.0 { power / (voltage_v - self.drop(node)) } else { 0.0 };
        factor * (by_power + self.current(node) + self.conductance(node) * voltage_v)
    }

    /// Checks lengths, signs and finiteness.
    ///
    /// # Errors
    /// [`LoadError`] naming the first quantity and node at fault.
    pub fn check(&self, nodes: usize) -> Result<(), LoadError> {
        let arrays = [
            ("power in W", self.power_w),
            ("current in A", self.current_a),
            ("conductance in S", self.conductance_s),
            ("rectifier drop in V", self.drop_v),
        ];
        for (quantity, values) in arrays {
            if !values.is_empty() && values.len() != nodes {
                return Err(LoadError::Length { quantity, entries: values.len(), nodes });
            }
            // Branch-free over the whole array first: this runs before every solve.
            let fine = values.iter().fold(true, |fine, &v| fine & (0.0..=f64::MAX).contains(&v));
            if !fine {
                let found = values.iter().enumerate().find(|(_, v)| !(v.is_finite() && **v >= 0.0));
                if let Some((node, &value)) = found {
                    return Err(LoadError::Value { quantity, node, value });
                }
            }
        }
        Ok(())
    }
}

#[inline]
fn entry(values: &[f64], node: usize) -> f64 {
    values.get(node).copied().unwrap_or(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_the_quantity_and_the_node() {
        let loads = Loads { current_a: &[0.0, -0.5], ..Loads::default() };
        let message = loads.check(2).unwrap_err().to_string();
        assert_eq!(message, "current in A of node 1 is -0.5; it must be finite and >= 0");
        assert!(Loads::of_power(&[1.0]).check(2).is_err());
        assert!(Loads::of_power(&[f64::NAN, 1.0]).check(2).is_err());
        assert!(Loads::of_power(&[f64::INFINITY, 1.0]).check(2).is_err());
    }

    #[test]
    fn a_source_needs_a_voltage() {
        for voltage_v in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert!(Source { voltage_v, resistance_ohm: 0.0 }.check().is_err());
        }
        assert!(Source { voltage_v: 48.0, resistance_ohm: -0.1 }.check().is_err());
    }
}
