//! The pages. Each is made of what a state says and of words of `latchline_words::office`; names from files are text, never markup.

mod about;
pub(crate) mod changed;
pub(crate) mod details;
pub(crate) mod documents;
pub(crate) mod edits;
pub(crate) mod fault;
pub(crate) mod history;
pub(crate) mod jobs;
mod profile;
pub(crate) mod questions;
mod run_details;
pub(crate) mod shell;
pub(crate) mod site;
pub(crate) mod sites;
pub(crate) mod table;
pub(crate) mod text;
