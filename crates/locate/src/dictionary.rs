//! The faults of a site as a table that is carried along: made (`table`), written and read back (`bytes`), ranked from (`rank`).

mod bytes;
mod rank;
mod table;

pub use bytes::Damaged;
pub use rank::{Read, Share, reads};
pub use table::Dictionary;
