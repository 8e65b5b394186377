//! The rooted tree in parent-first order.

use std::fmt;

/// A rooted tree of loop resistances in parent-first order.
///
/// Node 0 is the root. `parent[k] < k` for every other node; `parent[0]` and the resistance of entry 0
/// are not used (the resistance of the source belongs to [`super::Source`]). The shape is checked once;
/// resistances can be replaced without checking it again.
#[derive(Clone, Debug, PartialEq)]
pub struct Tree {
    parent: Vec<u32>,
    resistance_ohm: Vec<f64>,
    rounding_steps: f64,
}

/// Why an array pair is not a tree.
#[derive(Clone, Debug, PartialEq)]
pub enum TreeError {
    /// No node at all.
    Empty,
    /// More nodes than a 32-bit index can name.
    TooManyNodes {
        /// Number of nodes asked for.
        nodes: usize,
    },
    /// The arrays differ in length.
    Length {
        /// Entries in the parent array.
        parents: usize,
        /// Entries in the resistance array.
        resistances: usize,
    },
    /// A node does not come after its parent.
    Order {
        /// The node.
        node: usize,
        /// Its parent.
        parent: u32,
    },
    /// A resistance is negative or not finite.
    Resistance {
        /// The node at the far end of the segment.
        node: usize,
        /// The value, ohm.
        resistance_ohm: f64,
    },
}

impl fmt::Display for TreeError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => write!(f, "a tree needs at least its root"),
            Self::TooManyNodes { nodes } => {
                write!(f, "{nodes} nodes are more than the limit of {}", u32::MAX)
            }
            Self::Length { parents, resistances } => {
                write!(f, "{parents} parents but {resistances} resistances")
            }
            Self::Order { node, parent } => {
                write!(f, "node {node} has the parent {parent}, which must be smaller than the node")
            }
            Self::Resistance { node, resistance_ohm } => {
                write!(f, "the segment to node {node} has {resistance_ohm} ohm; it must be finite and >= 0")
            }
        }
    }
}

impl std::error::Error for TreeError {}

impl Tree {
    /// Checks and takes over a parent-first layout. `resistance_ohm[k]` is the loop resistance (both
    /// conductors) from `parent[k]` to `k`; entry 0 of both arrays is ignored.
    ///
    /// # Errors
    /// [`TreeError`] when the arrays are empty, differ in length, are out of order, or hold a
    /// resistance that is negative or not finite.
    pub fn new(parent: Vec<u32>, resistance_ohm: Vec<f64>) -> Result<Self, TreeError> {
        let nodes = parent.len();
        if nodes == 0 {
            return Err(TreeError::Empty);
        }
        if u32::try_from(nodes).is_err() {
            return Err(TreeError::TooManyNodes { nodes });
        }
        if resistance_ohm.len() != nodes {
            return Err(TreeError::Length { parents: nodes, resistances: resistance_ohm.len() });
        }
        for (node, &up) in parent.iter().enumerate().skip(1) {
            if up as usize >= node {
                return Err(TreeError::Order { node, parent: up });
            }
        }
        check_resistances(&resistance_ohm)?;
        let rounding_steps = rounding_steps(&parent);
        Ok(Self { parent, resistance_ohm, rounding_steps })
    }

    /// Number of nodes, the root included.
    #[must_use]
    pub fn len(&self) -> usize {
        self.parent.len()
    }

    /// Never true: a tree has a root. Present because `len` is.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.parent.is_empty()
    }

    /// Parent of every node; entry 0 has no meaning.
    #[must_use]
    pub fn parents(&self) -> &[u32] {
        &self.parent
    }

    /// Loop resistance of the segment above every node, ohm; entry 0 has no meaning.
    #[must_use]
    pub fn resistances_ohm(&self) -> &[f64] {
        &self.resistance_ohm
    }

    /// Replaces all resistances (tolerance corners, samples) and keeps the shape.
    ///
    /// # Errors
    /// [`TreeError::Length`] or [`TreeError::Resistance`]; the tree is then unchanged.
    pub fn replace_resistances(&mut self, resistance_ohm: &[f64]) -> Result<(), TreeError> {
        if resistance_ohm.len() != self.len() {
            return Err(TreeError::Length { parents: self.len(), resistances: resistance_ohm.len() });
        }
        check_resistances(resistance_ohm)?;
        self.resistance_ohm.copy_from_slice(resistance_ohm);
        Ok(())
    }

    /// Replaces the resistance above one node.
    ///
    /// # Errors
    /// [`TreeError::Resistance`] when the value is not usable, [`TreeError::Order`] when there is no
    /// such segment.
    pub fn replace_resistance(&mut self, node: usize, resistance_ohm: f64) -> Result<(), TreeError> {
        if node == 0 || node >= self.len() {
            return Err(TreeError::Order { node, parent: 0 });
        }
        if !(resistance_ohm.is_finite() && resistance_ohm >= 0.0) {
            return Err(TreeError::Resistance { node, resistance_ohm });
        }
        self.resistance_ohm[node] = resistance_ohm;
        Ok(())
    }

    /// The number `N` of roundings that a term can meet on its way through one upward and one
    /// downward linear sweep, an upper bound over all terms.
    ///
    /// A term entering at a node is added to its siblings (at most one addition a child) and divided
    /// by a pivot at every node up to the point where it turns, then travels down with one product
    /// and one sum a level. With the pivots of conductances, whose own errors travel the same
    /// way, each level costs at most eight operations besides the additions, each of which is counted twice
    /// (once in the sum of slopes, once in the sum of currents). Besides, a term meets at most ten
    /// roundings where the load is evaluated (difference, product with a factor, quotient, two sums), at
    /// its turn and in the final comparison (a difference, a product and the factor itself).
    #[must_use]
    pub fn rounding_steps(&self, with_conductances: bool) -> f64 {
        if with_conductances { 8.0 * self.rounding_steps + 32.0 } else { self.rounding_steps + 12.0 }
    }
}

fn check_resistances(resistance_ohm: &[f64]) -> Result<(), TreeError> {
    match resistance_ohm.iter().enumerate().skip(1).find(|(_, r)| !(r.is_finite() && **r >= 0.0)) {
        Some((node, &resistance_ohm)) => Err(TreeError::Resistance { node, resistance_ohm }),
        None => Ok(()),
    }
}

/// Largest, over the ways from the root to a leaf, of the number of children met plus the number of
/// levels, plus one product a level.
fn rounding_steps(parent: &[u32]) -> f64 {
    let nodes = parent.len();
    let mut children = vec![0_u32; nodes];
    for &up in &parent[1..] {
        children[up as usize] += 1;
    }
    let mut along = vec![0_u64; nodes];
    let mut most = u64::from(children[0]) + 2;
    along[0] = most;
    for node in 1..nodes {
        along[node] = along[parent[node] as usize] + u64::from(children[node]) + 1;
        most = most.max(along[node]);
    }
    // Node counts are below 2^32, so the conversion is exact.
    most as f64
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn refuses_what_is_not_parent_first() {
        assert_eq!(Tree::new(vec![0, 2, 0], vec![0.0; 3]), Err(TreeError::Order { node: 1, parent: 2 }));
        assert_eq!(Tree::new(vec![], vec![]), Err(TreeError::Empty));
        assert!(matches!(Tree::new(vec![0, 0], vec![0.0]), Err(TreeError::Length { .. })));
        for bad in [-1.0, f64::NAN, f64::INFINITY] {
            let error = Tree::new(vec![0, 0], vec![0.0, bad]).unwrap_err();
            assert!(matches!(error, TreeError::Resistance { node: 1, .. }), "{error}");
        }
    }

    #[test]
    fn the_entry_of_the_root_is_ignored() {
        assert!(Tree::new(vec![7, 0], vec![f64::NAN, 1.0]).is_ok());
    }

    #[test]
    fn replacing_keeps_the_tree_when_refused() {
        let mut tree = Tree::new(vec![0, 0, 1], vec![0.0, 1.0, 2.0]).unwrap();
        assert!(tree.replace_resistances(&[0.0, 1.0, -2.0]).is_err());
        assert!(tree.replace_resistance(0, 1.0).is_err());
        assert!(tree.replace_resistance(3, 1.0).is_err());
        assert_eq!(tree.resistances_ohm(), &[0.0, 1.0, 2.0]);
        tree.replace_resistance(2, 5.0).unwrap();
        assert_eq!(tree.resistances_ohm(), &[0.0, 1.0, 5.0]);
    }
}
