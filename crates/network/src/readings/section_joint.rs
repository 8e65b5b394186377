//! What a joint in one section would do.

use crate::worst::Device;
use latchline_finding::StateKind;

/// The device that fails first with a joint.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct JointThatFails {
    /// Smallest joint with which it falls below its limit, in ohms.
    pub ohm: f64,
    /// Which device.
    pub device: Device,
    /// In which state.
    pub state: StateKind,
}

/// What a joint in one section would do.
#[derive(Debug, Clone, PartialEq)]
pub struct SectionJoint {
    /// Index into `Site::runs`.
    pub run: usize,
    /// The section of that run.
    pub section: usize,
    /// Smallest joint that the drops over the whole run reveal, in ohms; `None` where none below an open wire does.
    pub revealed_ohm: Option<f64>,
    /// The same with the drops over this section alone.
    pub revealed_alone_ohm: Option<f64>,
    /// Smallest with which the site fails; `None` where none below an open wire does, or where it fails without.
    pub fails: Option<JointThatFails>,
}

impl SectionJoint {
    /// Whether a joint that the drops over the whole run hide would fail the site.
    pub fn hides_a_failure(&self) -> bool {
        is_hidden(self.revealed_ohm, self.fails)
    }

    /// The same where the drops over the section alone are read too.
    pub fn hides_a_failure_alone(&self) -> bool {
        is_hidden(self.revealed_alone_ohm, self.fails)
    }
}

pub(super) fn is_hidden(revealed_ohm: Option<f64>, fails: Option<JointThatFails>) -> bool {
    fails.is_some_and(|fails| revealed_ohm.is_none_or(|revealed| revealed > fails.ohm))
}
