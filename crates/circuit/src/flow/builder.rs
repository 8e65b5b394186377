//! From a list of segments in any order and direction to the parent-first layout, in linear time.

use std::fmt;

use super::{Tree, TreeError};

/// One segment between two nodes, named by their place in the caller's list of nodes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SegmentEnds {
    /// One end.
    pub from: usize,
    /// The other end.
    pub to: usize,
    /// Loop resistance (both conductors), ohm.
    pub resistance_ohm: f64,
}

/// A tree with the way back to the caller's nodes and segments.
#[derive(Clone, Debug, PartialEq)]
pub struct BuiltTree {
    /// The tree; position 0 is the root. Positions go outwards level by level, so that neighbours in
    /// memory seldom depend on each other.
    pub tree: Tree,
    /// The caller's node at every position.
    pub node_at: Vec<u32>,
    /// The position of every one of the caller's nodes.
    pub position_of: Vec<u32>,
    /// The caller's segment above every position; entry 0 has no meaning.
    pub segment_above: Vec<u32>,
}

/// Why the segments are not a tree that reaches every node.
#[derive(Clone, Debug, PartialEq)]
pub enum BuildError {
    /// A segment names a node that does not exist.
    UnknownNode {
        /// The segment.
        segment: usize,
        /// The node it names.
        node: usize,
    },
    /// The root does not exist.
    UnknownRoot {
        /// The node named as root.
        node: usize,
    },
    /// A segment joins a node with itself.
    ToItself {
        /// The segment.
        segment: usize,
        /// The node.
        node: usize,
    },
    /// Two segments join the same two nodes.
    Duplicate {
        /// The first.
        segment: usize,
        /// The second.
        again: usize,
    },
    /// A segment closes a loop.
    Loop {
        /// The segment.
        segment: usize,
    },
    /// A node that no segments connect with the root.
    Unreached {
        /// The node.
        node: usize,
    },
    /// The sizes or a resistance are not usable.
    Tree(TreeError),
    /// A resistance is negative or not finite.
    Resistance {
        /// The segment.
        segment: usize,
        /// The value, ohm.
        resistance_ohm: f64,
    },
}

impl fmt::Display for BuildError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::UnknownNode { segment, node } => {
                write!(f, "segment {segment} names node {node}, which does not exist")
            }
            Self::UnknownRoot { node } => write!(f, "the root, node {node}, does not exist"),
            Self::ToItself { segment, node } => write!(f, "segment {segment} joins node {node} with itself"),
            Self::Duplicate { segment, again } => {
                write!(f, "segments {segment} and {again} join the same two nodes")
            }
            Self::Loop { segment } => {
                write!(f, "segment {segment} closes a loop; only trees can be solved")
            }
            Self::Unreached { node } => write!(f, "node {node} is not connected with the root"),
            Self::Tree(error) => error.fmt(f),
            Self::Resistance { segment, resistance_ohm } => {
                write!(f, "segment {segment} has {resistance_ohm} ohm; it must be finite and >= 0")
            }
        }
    }
}

impl std::error::Error for BuildError {}

impl BuiltTree {
    /// Lays out the tree that `segments` form over the nodes `0..nodes`, seen from `root`.
    ///
    /// # Errors
    /// [`BuildError`] naming the first segment or node at fault.
    pub fn new(nodes: usize, root: usize, segments: &[SegmentEnds]) -> Result<Self, BuildError> {
        if nodes >= u32::MAX as usize || segments.len() >= u32::MAX as usize / 2 {
            return Err(BuildError::Tree(TreeError::TooManyNodes { nodes: nodes.max(segments.len()) }));
        }
        if root >= nodes {
            return Err(BuildError::UnknownRoot { node: root });
        }
        let (first, meeting) = meeting_segments(nodes, segments)?;
        let mut position_of = vec![u32::MAX; nodes];
        let mut node_at = Vec::with_capacity(nodes);
        let mut segment_above = Vec::with_capacity(nodes);
        let mut parent = Vec::with_capacity(nodes);
        let mut resistance_ohm = Vec::with_capacity(nodes);
        position_of[root] = 0;
        node_at.push(root as u32);
        segment_above.push(u32::MAX);
        parent.push(0);
        resistance_ohm.push(0.0);
        let mut position = 0;
        while position < node_at.len() {
            let node = node_at[position] as usize;
            for &segment in &meeting[first[node] as usize..first[node + 1] as usize] {
                if segment == segment_above[position] {
                    continue;
                }
                let ends = segments[segment as usize];
                let other = if ends.from == node { ends.to } else { ends.from };
                if position_of[other] != u32::MAX {
                    let joined = position_of[other] as usize;
                    let twin = (segment_above[position], segment_above[joined]);
                    return Err(closing_segment(segments, segment, twin));
                }
                position_of[other] = node_at.len() as u32;
                node_at.push(other as u32);
                segment_above.push(segment);
                parent.push(position as u32);
                resistance_ohm.push(ends.resistance_ohm);
            }
            position += 1;
        }
        if node_at.len() < nodes {
            let node = position_of.iter().position(|&p| p == u32::MAX).unwrap_or(nodes);
            return Err(BuildError::Unreached { node });
        }
        let tree = Tree::new(parent, resistance_ohm).map_err(BuildError::Tree)?;
        Ok(Self { tree, node_at, position_of, segment_above })
    }
}

/// The segments that meet at every node, in the caller's order: `meeting[first[k]..first[k + 1]]`.
fn meeting_segments(nodes: usize, segments: &[SegmentEnds]) -> Result<(Vec<u32>, Vec<u32>), BuildError> {
    let mut first = vec![0_u32; nodes + 1];
    for (segment, ends) in segments.iter().enumerate() {
        for node in [ends.from, ends.to] {
            if node >= nodes {
                return Err(BuildError::UnknownNode { segment, node });
            }
            first[node + 1] += 1;
        }
        if ends.from == ends.to {
            return Err(BuildError::ToItself { segment, node: ends.from });
        }
        let resistance_ohm = ends.resistance_ohm;
        if !(resistance_ohm.is_finite() && resistance_ohm >= 0.0) {
            return Err(BuildError::Resistance { segment, resistance_ohm });
        }
    }
    for node in 0..nodes {
        first[node + 1] += first[node];
    }
    let mut free = first.clone();
    let mut meeting = vec![0_u32; 2 * segments.len()];
    for (segment, ends) in segments.iter().enumerate() {
        for node in [ends.from, ends.to] {
            meeting[free[node] as usize] = segment as u32;
            free[node] += 1;
        }
    }
    Ok((first, meeting))
}

/// A segment that leads to a node already reached: a twin of the one above either end, or a loop.
fn closing_segment(segments: &[SegmentEnds], segment: u32, above: (u32, u32)) -> BuildError {
    let ends = |s: u32| segments.get(s as usize).map(|s| (s.from.min(s.to), s.from.max(s.to)));
    for other in [above.0, above.1] {
        if ends(other).is_some() && ends(other) == ends(segment) {
            let (segment, again) = (segment.min(other) as usize, segment.max(other) as usize);
            return BuildError::Duplicate { segment, again };
        }
    }
    BuildError::Loop { segment: segment as usize }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn segment(from: usize, to: usize) -> SegmentEnds {
        SegmentEnds { from, to, resistance_ohm: 1.0 }
    }

    #[test]
    fn any_order_and_direction_is_laid_out_from_the_root() {
        let built = BuiltTree::new(4, 2, &[segment(0, 1), segment(3, 0), segment(2, 1)]).unwrap();
        assert_eq!(built.node_at, [2, 1, 0, 3]);
        assert_eq!(built.tree.parents(), [0, 0, 1, 2]);
        assert_eq!(built.segment_above[1..], [2, 0, 1]);
        for node in 0..4_u32 {
            assert_eq!(built.node_at[built.position_of[node as usize] as usize], node);
        }
    }

    #[test]
    fn what_is_not_a_tree_is_named() {
        let error =
            |nodes, root, segments: &[SegmentEnds]| BuiltTree::new(nodes, root, segments).unwrap_err();
        assert_eq!(error(2, 2, &[]), BuildError::UnknownRoot { node: 2 });
        assert_eq!(error(2, 0, &[segment(0, 5)]), BuildError::UnknownNode { segment: 0, node: 5 });
        assert_eq!(error(2, 0, &[segment(1, 1)]), BuildError::ToItself { segment: 0, node: 1 });
        assert_eq!(error(3, 0, &[segment(0, 1)]), BuildError::Unreached { node: 2 });
        assert_eq!(
            error(2, 0, &[segment(0, 1), segment(1, 0)]),
            BuildError::Duplicate { segment: 0, again: 1 }
        );
        let ring = [segment(0, 1), segment(1, 2), segment(2, 0)];
        assert!(matches!(error(3, 0, &ring), BuildError::Loop { .. }));
        // A ring beside a tree: the nodes of the ring are not reached.
        let apart = [segment(0, 1), segment(2, 3), segment(3, 4), segment(4, 2)];
        assert_eq!(error(5, 0, &apart), BuildError::Unreached { node: 2 });
        let bad = SegmentEnds { from: 0, to: 1, resistance_ohm: f64::NAN };
        assert!(matches!(error(2, 0, &[bad]), BuildError::Resistance { segment: 0, .. }));
    }
}
