//! The office page: a local web app over the sites of one folder.
//!
//! * [`serve()`]: answers on a listener that is given, until it is told to stop; every stream ends then;
//! * `guard`: who may ask at all: host, origin, token, sizes, times;
//! * `archive`: the texts and how they came about; `work`: an open site with its session, one step after the other;
//! * `files`: how the files in the folder stand beside that;
//! * `change`: what a page asks for, as an [`Edit`](latchline_finding::Edit);
//! * `printed`: a state as it stands on a page, in one language; `live`: what changed of it, as it comes in;
//! * `blank`: a new site from one form or a survey, wired by `design`;
//! * `pages`: the pages themselves; `assets`: styles and scripts, embedded.
//!
//! No page computes an engineering quantity: figures come from the session's assessment. Everything slow runs off the threads that answer.

mod archive;
mod assets;
mod blank;
mod change;
mod engine;
mod files;
mod guard;
mod listen;
mod live;
mod locale;
mod office;
mod pages;
mod printed;
mod refused;
mod routes;
mod work;

pub use archive::Folder;
pub use listen::{answered, serve};
pub use office::{Initial, Office, Options};
