//! From segments in any order and direction to parent-first order.

use std::fmt;

/// The nodes of a tree, parents before children.
#[derive(Clone, Debug, PartialEq)]
pub struct Ordered {
    /// The caller's number of each node, root first.
    pub node: Vec<usize>,
    /// Position (in this order) of the parent of each node but the root: entry `k - 1` is for node `k`.
    pub parent: Vec<usize>,
    /// The caller's number of the segment from the parent, entry `k - 1` for node `k`.
    pub segment: Vec<usize>,
}

/// Why the segments are no tree.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OrderError {
    /// A segment ends at a node that does not exist (or the root does not).
    UnknownNode {
        /// The number that is no node.
        node: usize,
    },
    /// A segment closes a loop.
    Loop {
        /// The segment that does.
        segment: usize,
    },
    /// No segment connects this node to the root.
    Unreached {
        /// The node.
        node: usize,
    },
}

impl fmt::Display for OrderError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::UnknownNode { node } => write!(f, "node {node} does not exist"),
            Self::Loop { segment } => write!(f, "segment {segment} closes a loop, a tree has none"),
            Self::Unreached { node } => write!(f, "node {node} is not connected to the root"),
        }
    }
}

impl std::error::Error for OrderError {}

/// Orders `node_count` nodes from `root` along `segments` (pairs of nodes), breadth first, in linear time.
pub fn order_from(
    node_count: usize,
    root: usize,
    segments: &[(usize, usize)],
) -> Result<Ordered, OrderError> {
    if root >= node_count {
        return Err(OrderError::UnknownNode { node: root });
    }
    // Segments at each node, one list after the other.
    let mut first = vec![0_usize; node_count + 1];
    for &(a, b) in segments {
        for node in [a, b] {
            if node >= node_count {
                return Err(OrderError::UnknownNode { node });
            }
            first[node + 1] += 1;
        }
    }
    for k in 0..node_count {
        first[k + 1] += first[k];
    }
    let mut at = first.clone();
    let mut touching = vec![0_usize; 2 * segments.len()];
    for (segment, &(a, b)) in segments.iter().enumerate() {
        for node in [a, b] {
            touching[at[node]] = segment;
            at[node] += 1;
        }
    }
    let mut ordered = Ordered { node: vec![root], parent: Vec::new(), segment: Vec::new() };
    let mut reached = vec![false; node_count];
    let mut used = vec![false; segments.len()];
    reached[root] = true;
    let mut position = 0;
    while let Some(&node) = ordered.node.get(position) {
        for &segment in &touching[first[node]..first[node + 1]] {
            if used[segment] {
                continue;
            }
            used[segment] = true;
            let (a, b) = segments[segment];
            let other = if a == node { b } else { a };
            if reached[other] {
                return Err(OrderError::Loop { segment });
            }
            reached[other] = true;
            ordered.node.push(other);
            ordered.parent.push(position);
            ordered.segment.push(segment);
        }
        position += 1;
    }
    match reached.iter().position(|&seen| !seen) {
        Some(node) => Err(OrderError::Unreached { node }),
        None => Ok(ordered),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn orders_segments_of_any_direction() {
        let ordered = order_from(4, 2, &[(0, 1), (0, 2), (3, 0)]).unwrap();
        assert_eq!(ordered.node, [2, 0, 1, 3]);
        assert_eq!(ordered.parent, [0, 1, 1]);
        assert_eq!(ordered.segment, [1, 0, 2]);
    }

    #[test]
    fn names_what_is_no_tree() {
        assert_eq!(order_from(3, 0, &[(0, 1), (1, 2), (2, 0)]), Err(OrderError::Loop { segment: 1 }));
        assert_eq!(order_from(2, 0, &[(0, 1), (1, 0)]), Err(OrderError::Loop { segment: 1 }));
        assert_eq!(order_from(1, 0, &[(0, 0)]), Err(OrderError::Loop { segment: 0 }));
        assert_eq!(order_from(3, 0, &[(0, 1)]), Err(OrderError::Unreached { node: 2 }));
        assert_eq!(order_from(2, 0, &[(0, 5)]), Err(OrderError::UnknownNode { node: 5 }));
        assert_eq!(order_from(0, 0, &[]), Err(OrderError::UnknownNode { node: 0 }));
    }
}
