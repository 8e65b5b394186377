//! Every file is read and written here.
//!
//! * [`read`]: texts and bytes, with a bound on their size;
//! * [`write`](fn@write): one file, written aside and then put in place; never half a file, never over what
//!   nobody agreed to lose;
//! * [`edit`]: the same for a file that was read before, refused if it is no longer what was read;
//! * [`kind`]: what a file plainly is, for who names the wrong one;
//! * [`create_by`]: a new file that something else fills;
//! * [`LiveFiles`], [`FolderLock`]: the files beside a store, and who may work on them;
//! * [`inputs`]: a result is never written over what it was made from;
//! * `written`: what was written so far, for who is told of a failure;
//! * [`folder`]: a folder of files that appears whole or not at all, and keeps what people wrote into it;
//! * [mod@workbooks]: those of an earlier pack, with what people wrote into them;
//! * [`PassingFolder`]: a folder for as long as the program runs.
#![allow(clippy::disallowed_methods, reason = "files are read and written here, and nowhere else")]

mod aside;
pub mod folder;
pub mod inputs;
mod kept;
mod kind;
mod live;
mod lock;
mod passing;
pub mod read;
mod result_file;
mod standing;
#[cfg(test)]
mod tests;
mod workbooks;
mod write;
mod written;

pub use inputs::{refuse_inputs, refuse_one_place};
pub use kind::{refuse_for_site, refuse_for_survey, refuse_pack_folder, refuse_pack_for_site};
pub use live::LiveFiles;
pub use lock::FolderLock;
pub use passing::PassingFolder;
pub use read::{Original, cannot_use, original, read_bytes, read_text};
pub use result_file::ResultFile;
pub use standing::{MayReplace, refuse_standing};
pub use workbooks::{OldWorkbook, changed_tables, workbooks};
pub use write::{create_by, edit, make_folder, write};
pub use written::written;
