//! What the file format (PDF 1.7, ISO 32000-1) wants, and nothing of what the pages say.
//!
//! * `file`: objects, streams and the cross-reference; * `font`: subsets of TrueType fonts; * `content`: the
//!   operators of a page; * `structure`: tags; * `profile`: the colour profile; * `metadata`: XMP.

pub(crate) mod content;
pub(crate) mod file;
pub(crate) mod font;
pub(crate) mod metadata;
pub(crate) mod profile;
pub(crate) mod structure;
