//! Words and sentences of the pack that have no argument, one file a table.
//!
//! They are one enum, since tables share words and hand them to each other. Its rows come from the files: each is a macro that adds its
//! own rows to those before it and hands all to the next; the last makes the enum.

mod calculations;
mod calls;
mod commissioning;
mod devices;
mod doors;
mod faults;
mod fittings;
mod handover;
mod interfaces;
mod job_cards;
mod revisions;
mod shared;
mod summary;
mod supplies;
mod wiring;
mod workbook;

use crate::row::words;
use calculations::calculations;
use calls::calls;
use commissioning::commissioning;
use devices::devices;
use doors::doors;
use faults::faults;
use fittings::fittings;
use handover::handover;
use interfaces::interfaces;
use job_cards::job_cards;
use revisions::revisions;
use shared::shared;
use summary::summary;
use supplies::supplies;
use wiring::wiring;
use workbook::workbook;

macro_rules! whole {
    (; $($rows:tt)*) => {
        words! {
            /// A word or sentence of the pack without arguments.
            pub enum Word {
                $($rows)*
            }
        }
    };
}

shared! { doors fittings supplies calculations summary wiring devices calls commissioning handover interfaces job_cards revisions faults workbook whole; }
