//! What `pack` takes over from the workbooks and tables of an earlier pack, and what it says of that.

use super::filled_workbook::{carry_first, carry_into, ways_to_read};
use crate::files::{self, OldWorkbook};
use crate::refusal::Result;
use latchline_finding::{EditStep, shown};
use latchline_handover::built;
use latchline_handover::{Options, Pack, PackInput, Stamp};
use latchline_site::edit::Editable;
use latchline_words::commands::PackWords;
use std::path::Path;

/// How many entries without a place are listed.
const MOST_LISTED: usize = 20;

/// Carries what people wrote into the workbooks and tables of a folder into a pack, and into the client's; says what came of it.
///
/// # Errors
/// If a pack in the language of a workbook cannot be made.
pub(super) fn carried_over<'a>(
    (folder, site_file, site_text): (&Path, &Path, &str),
    pack: &mut Pack<'a>,
    client: Option<&mut Pack<'a>>,
    input: &PackInput<'_>,
    (options, of_client, stamp): (&Options, Option<&Options>, &Stamp),
) -> Result<Vec<String>> {
    let language = options.locale.language;
    let mut said = Vec::new();
    let mut tell = |words: PackWords<'_>| said.push(words.say(language));
    let mut client = client.zip(of_client);
    let mut last = None;
    let all = files::workbooks(folder);
    let (changed, as_made): (Vec<OldWorkbook>, Vec<OldWorkbook>) =
        all.into_iter().partition(|workbook| workbook.is_changed);
    let tables = files::changed_tables(folder);
    for OldWorkbook { name, bytes, is_changed } in changed.into_iter().chain(as_made).chain(tables) {
        // One that nobody changed holds what an earlier run carried into it: it counts where no changed one could be read.
        if !is_changed && last.is_some() {
            continue;
        }
        let file = &*shown::name(&name);
        let ways = ways_to_read(&name, &bytes);
        let carried = match carry_first(pack, &ways, (input, options, stamp))? {
            Some((way, carried)) => {
                if let Some((client, of_client)) = &mut client {
                    carry_into(client, &ways[way], (input, of_client, stamp))?;
                }
                Some(carried)
            }
            None => None,
        };
        let Some(carried) = carried else {
            tell(PackWords::WorkbookUnread { file });
            continue;
        };
        if carried.entries > 0 {
            tell(PackWords::CarriedOver { entries: carried.entries, file });
            // Of several the first is named: a workbook before single tables.
            last.get_or_insert_with(|| name.clone());
        }
        if carried.differing > 0 {
            tell(PackWords::CarriedDiffer { count: carried.differing, file });
        }
        if !carried.lost.is_empty() {
            tell(PackWords::NotCarried { count: carried.lost.len(), file });
            for one in carried.lost.iter().take(MOST_LISTED) {
                let [sheet, column, written] =
                    [&one.sheet, &one.column, &one.written].map(|text| shown::name(text).to_string());
                let (sheet, column, written) = (sheet.as_str(), column.as_str(), written.as_str());
                tell(PackWords::NotCarriedOne { sheet, row: one.row as usize, column, written });
            }
            if carried.lost.len() > MOST_LISTED {
                tell(PackWords::NotCarriedMore { count: carried.lost.len() - MOST_LISTED });
            }
        }
    }
    if let Some(name) = last {
        let editable = Editable::new(site_text).ok();
        let has = |path: &[EditStep]| editable.as_ref().is_some_and(|text| text.value_at(path).is_some());
        let built = built::read(&pack.subject, &pack.tables, &has);
        let count = built.beyond_the_plan();
        if count > 0 {
            let workbook = folder.join(name);
            let command =
                &format!("latchline as-built {} {}", shown::path(site_file), shown::path(&workbook));
            tell(PackWords::BuiltOtherwise { count, command });
        }
    }
    Ok(said)
}
