//! The tree of lines: layout, lines, entries and shunt elements, checked once.

use std::fmt;

use super::elements::{Entry, Shunt};
use super::line::Line;
use super::value::{ValueError, not_negative};

/// The branch from a node's parent to the node.
#[derive(Clone, Debug, PartialEq)]
pub struct Branch {
    /// The parent, a node with a smaller number.
    pub parent: usize,
    /// Which of the tree's lines.
    pub line: usize,
    /// Length in metre, 0 or more.
    pub length_m: f64,
    /// Two-port between the end of the line and the node.
    pub entry: Option<Entry>,
}

/// A rooted tree of lines. Node 0 is the root; every other node comes after its parent.
#[derive(Clone, Debug, PartialEq)]
pub struct SignalTree {
    lines: Vec<Line>,
    branches: Vec<Branch>,
    shunts: Vec<(usize, Shunt)>,
}

/// What is wrong with a tree.
#[derive(Clone, Debug, PartialEq)]
pub enum TreeError {
    /// A branch whose parent does not come before its node.
    ParentNotBefore {
        /// The node at the end of the branch.
        node: usize,
        /// The parent given.
        parent: usize,
    },
    /// A branch with a line that the tree does not have.
    UnknownLine {
        /// The node at the end of the branch.
        node: usize,
        /// The line given.
        line: usize,
    },
    /// A node number that the tree does not have.
    UnknownNode {
        /// The number given.
        node: usize,
        /// How many nodes there are.
        nodes: usize,
    },
    /// More nodes than the kernel numbers.
    TooManyNodes {
        /// How many were given.
        nodes: usize,
    },
    /// A value outside its limits, of the branch to `node` or of an element there.
    Value {
        /// The node.
        node: usize,
        /// The value and its limit.
        error: ValueError,
    },
}

impl fmt::Display for TreeError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::ParentNotBefore { node, parent } => {
                write!(f, "parent {parent} of node {node} does not come before it")
            }
            Self::UnknownLine { node, line } => {
                write!(f, "line {line} of the branch to node {node} does not exist")
            }
            Self::UnknownNode { node, nodes } => write!(f, "node {node} does not exist, there are {nodes}"),
            Self::TooManyNodes { nodes } => write!(f, "{nodes} nodes, must be at most {GREATEST_NODES}"),
            Self::Value { node, error } => write!(f, "node {node}: {error}"),
        }
    }
}

impl std::error::Error for TreeError {}

/// Greatest number of nodes.
const GREATEST_NODES: usize = 10_000_000;

impl SignalTree {
    /// A tree of `branches.len() + 1` nodes; `branches[k - 1]` leads to node `k`.
    pub fn new(lines: Vec<Line>, branches: Vec<Branch>) -> Result<Self, TreeError> {
        if branches.len() >= GREATEST_NODES {
            return Err(TreeError::TooManyNodes { nodes: branches.len() + 1 });
        }
        for (k, branch) in branches.iter().enumerate() {
            let node = k + 1;
            if branch.parent >= node {
                return Err(TreeError::ParentNotBefore { node, parent: branch.parent });
            }
            if branch.line >= lines.len() {
                return Err(TreeError::UnknownLine { node, line: branch.line });
            }
            not_negative("length_m", branch.length_m)
                .and_then(|()| branch.entry.as_ref().map_or(Ok(()), Entry::check))
                .map_err(|error| TreeError::Value { node, error })?;
        }
        Ok(Self { lines, branches, shunts: Vec::new() })
    }

    /// Puts an element between the conductors at `node`; several at one node are in parallel.
    pub fn add_shunt(&mut self, node: usize, shunt: Shunt) -> Result<(), TreeError> {
        self.check_node(node)?;
        shunt.check().map_err(|error| TreeError::Value { node, error })?;
        self.shunts.push((node, shunt));
        Ok(())
    }

    /// Number of nodes, the root included.
    pub fn node_count(&self) -> usize {
        self.branches.len() + 1
    }

    /// The lines.
    pub fn lines(&self) -> &[Line] {
        &self.lines
    }

    /// The branches; entry `k - 1` leads to node `k`.
    pub fn branches(&self) -> &[Branch] {
        &self.branches
    }

    /// The shunt elements and the nodes they are at, in the order they were added.
    pub fn shunts(&self) -> &[(usize, Shunt)] {
        &self.shunts
    }

    /// The nodes from the root to `node`, both included.
    pub fn path_from_root(&self, node: usize) -> Result<Vec<usize>, TreeError> {
        self.check_node(node)?;
        let mut path = vec![node];
        let mut at = node;
        while at > 0 {
            at = self.branches[at - 1].parent;
            path.push(at);
        }
        path.reverse();
        Ok(path)
    }

    pub(super) fn check_node(&self, node: usize) -> Result<(), TreeError> {
        if node < self.node_count() {
            Ok(())
        } else {
            Err(TreeError::UnknownNode { node, nodes: self.node_count() })
        }
    }
}
