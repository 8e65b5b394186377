//! What the sheets are called at their tabs.

use crate::language::Word;
use crate::locale::Locale;
use crate::options::Part;

/// The tab of a table: in English its name on the command line.
pub fn tab(locale: &Locale, part: Part) -> &'static str {
    let word = match part {
        Part::Summary => Word::TabSummary,
        Part::Revisions => Word::TabRevisions,
        Part::InHand => Word::TabInHand,
        Part::Calculations => Word::TabCalculations,
        Part::Wiring => Word::TabWiring,
        Part::Devices => Word::TabDevices,
        Part::Cables => Word::TabCables,
        Part::CutList => Word::TabCutList,
        Part::Parts => Word::TabParts,
        Part::Calls => Word::TabCalls,
        Part::Names => Word::TabNames,
        Part::Doors => Word::TabDoors,
        Part::Interfaces => Word::TabInterfaces,
        Part::Supplies => Word::TabSupplies,
        Part::Voltages => Word::TabVoltages,
        Part::BeforePower => Word::TabBeforePower,
        Part::Live => Word::TabLive,
        Part::Faults => Word::TabFaults,
        Part::Snags => Word::TabSnags,
        Part::Handover => Word::TabHandover,
        Part::Glossary => Word::TabGlossary,
        Part::Cupboards => Word::TabCupboards,
        Part::OrderOfWork => Word::TabOrderOfWork,
        Part::Overview
        | Part::Elevation
        | Part::Profiles
        | Part::Signal
        | Part::StartUp
        | Part::Cards
        | Part::LockWiring
        | Part::JobCards
        | Part::Labels => return part.name(),
    };
    locale.word(word)
}

#[cfg(test)]
mod tests {
    use super::*;
    use latchline_finding::{Language, Units};
    use std::collections::BTreeSet;

    /// ECMA-376, part 1, 18.2.19 gives a sheet's name 31 characters; spreadsheets refuse `[ ] : * ? / \\`.
    #[test]
    fn tabs_differ_and_are_names_that_spreadsheets_take() {
        for language in [Language::English, Language::German] {
            let locale = Locale(latchline_finding::Locale { language, units: Units::Metric });
            let mut tabs: Vec<&str> = Part::ALL.iter().map(|part| tab(&locale, *part)).collect();
            tabs.push(locale.word(Word::TabContents));
            let different: BTreeSet<String> = tabs.iter().map(|tab| tab.to_lowercase()).collect();
            assert_eq!(different.len(), tabs.len());
            let is_good = |tab: &&str| {
                tab.chars().count() <= 31 && !tab.contains(&['[', ']', ':', '*', '?', '/', '\\'][..])
            };
            assert!(tabs.iter().all(is_good), "{tabs:?}");
            let is_english = language == Language::English;
            assert!(!is_english || Part::ALL.iter().all(|part| tab(&locale, *part) == part.name()));
        }
    }
}
