//! What `as-built` takes from a workbook or a table of the pack: lengths, types, addresses as they came out.

use super::filled_workbook::{carry_first, ways_to_read};
use super::from_phones::tell;
use crate::files::read_bytes;
use crate::load;
use crate::refusal::{Refused, Result};
use latchline_finding::{Edit, EditStep, Locale, shown};
use latchline_handover::built::{self, Takes};
use latchline_handover::filled::locale_of;
use latchline_handover::{Options, PackInput};
use latchline_report::table::{hanging, paragraph};
use latchline_report::{Look, wording};
use latchline_session::View;
use latchline_site::edit::Editable;
use latchline_words::commands::{AsBuiltWords, PackWords};
use latchline_words::refusals::ResultRefusal;
use std::fmt::Write as _;
use std::path::Path;

/// Whether a file is a workbook, or a table of its own, by its name.
pub(super) fn is_workbook(file: &Path) -> bool {
    file.extension().is_some_and(|ending| ["xlsx", "csv"].iter().any(|one| ending.eq_ignore_ascii_case(one)))
}

/// What a workbook says of what was built, in words, and the change that takes it over. `None` if it is no workbook of a pack, or the
/// site cannot be judged.
///
/// # Errors
/// If the file cannot be read, or the pack not be made.
pub(super) fn of_workbook(
    file: &Path,
    view: &View,
    every: bool,
    look: &Look,
) -> Result<Option<(String, Edit)>> {
    let language = look.language;
    let name = &*shown::path(file);
    let bytes = read_bytes(file, &mut std::io::empty())?;
    let (Some(site), Some(assessment), Some(readings)) = (view.site(), view.assessment()?, view.readings()?)
    else {
        return Ok(None);
    };
    let ways = ways_to_read(name, &bytes);
    let Some(units) = ways.iter().find_map(|sheets| locale_of(sheets)).map(|locale| locale.units) else {
        tell(&PackWords::WorkbookUnread { file: name }.say(language));
        return Ok(None);
    };
    // In the units of the file, whose figures are compared.
    let stamp = load::stamp(view, None, None);
    let options = Options { locale: Locale { language, units }, ..Options::default() };
    let reading_findings = &assessment.read;
    let input =
        PackInput { site, assessment, readings: &readings, cut_list: &[], reading_findings, faults: None };
    let mut pack =
        latchline_pack::put_together(&input, &options, &stamp).refused(|| ResultRefusal::NoPack)?;
    let carried = carry_first(&mut pack, &ways, (&input, &options, &stamp))?;
    let carried = carried.map_or_else(Default::default, |(_, carried)| carried);
    let editable = Editable::new(view.text()).ok();
    let has = |path: &[EditStep]| editable.as_ref().is_some_and(|text| text.value_at(path).is_some());
    let built = built::read(&pack.subject, &pack.tables, &has);
    let edit = built.edit(&pack.subject, &has, every);
    let title = &*shown::name(&site.title);
    let count = built.beyond_the_plan();
    let mut text = String::new();
    let mut put = |words: &str| text.push_str(&paragraph(words, 0, look.width));
    match count {
        0 => put(&AsBuiltWords::BookNothing { site: title, file: name }.say(language)),
        count => put(&AsBuiltWords::BookHead { site: title, file: name, count }.say(language)),
    }
    let line = |text: &mut String, words: &str| {
        text.push_str(&hanging("  ", &shown::prose(words), look.width));
    };
    let taken = |one: &&built::Difference| one.takes != Takes::Nothing && !one.is_within;
    built.differences.iter().filter(taken).for_each(|one| line(&mut text, &one.says));
    let sections: [(AsBuiltWords<'_>, Vec<&str>); 2] = [
        (
            AsBuiltWords::BookByHand,
            built
                .differences
                .iter()
                .filter(|one| one.takes == Takes::Nothing)
                .map(|one| &*one.says)
                .collect(),
        ),
        (
            AsBuiltWords::BookWithin,
            built.differences.iter().filter(|one| one.is_within).map(|one| &*one.says).collect(),
        ),
    ];
    for (words, lines) in sections {
        if !lines.is_empty() {
            let _ = write!(text, "\n{}", paragraph(&words.say(language), 0, look.width));
            lines.iter().for_each(|one| line(&mut text, one));
        }
    }
    if !edit.changes.is_empty() {
        let _ = write!(text, "\n{}", paragraph(&AsBuiltWords::BookSets.say(language), 0, look.width));
        wording::edit(&edit, language).iter().for_each(|one| line(&mut text, one));
    }
    for (count, words) in [
        (built.noted, AsBuiltWords::BookNoted { count: built.noted }),
        (built.readings, AsBuiltWords::BookReadings { count: built.readings }),
        (carried.lost.len(), AsBuiltWords::BookLost { count: carried.lost.len() }),
    ] {
        if count > 0 {
            let _ = write!(text, "\n{}", paragraph(&words.say(language), 0, look.width));
        }
    }
    Ok(Some((text, edit)))
}
