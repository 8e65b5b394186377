//! Why a command could not run: what stands behind `error:`.
//!
//! Each row is one link of a chain, the outermost first: what could not be done, then what kept it from being done.

mod arguments;

mod files;
mod folders;
mod kept;
mod names;
mod parts;
mod results;
mod site;
mod stores;
mod system;

pub use arguments::{ArgumentRefusal, UsageWord};
pub use files::{FileKind, FileNote, FileRefusal, InsteadOf};
pub use folders::FolderRefusal;
pub use kept::{KeptThing, LiveFault, NotKept, StoreFault, UnfitWords};
pub use names::NameRefusal;
pub use parts::{PartKind, PartRefusal, PartWord};
pub use results::ResultRefusal;
pub use site::SiteRefusal;
pub use stores::StoreRefusal;
pub use system::{OtherOfSystem, SystemRefusal};

use latchline_finding::Both;

/// Names one of which may be meant, in both languages.
pub fn either<N: AsRef<str>>(names: &[N]) -> Both {
    let names: Vec<&str> = names.iter().map(AsRef::as_ref).collect();
    Both::new(names.join(" or "), names.join(" oder "))
}
