//! Every row is whole: it says something in both languages, with the same arguments.

use crate::row::SentenceRow;
use crate::template::argument_names;
use crate::{
    alternatives, bands, calculation, candidates, commands, design, door, drawing, locate, missing, office,
    pack, phone, publications, reading, refusals, report, states, survey, terms, tolerance, typeset,
};
use std::collections::BTreeSet;

fn sentences() -> impl Iterator<Item = &'static SentenceRow> {
    let all: &[&'static [SentenceRow]] = &[
        alternatives::ChoiceWords::ROWS,
        pack::Sentence::ROWS,
        pack::BuiltWords::ROWS,
        drawing::Phrase::ROWS,
        typeset::Sentence::ROWS,
        states::FewWords::ROWS,
        states::When::ROWS,
        states::StateName::ROWS,
        states::CallWords::ROWS,
        states::WithReleases::ROWS,
        states::Exactly::ROWS,
        reading::BadRange::ROWS,
        reading::Expected::ROWS,
        reading::Foreign::ROWS,
        report::RemedyWords::ROWS,
        report::SheetWords::ROWS,
        commands::AcceptWords::ROWS,
        commands::AddressWords::ROWS,
        commands::AsBuiltWords::ROWS,
        commands::AskWords::ROWS,
        commands::CompareWords::ROWS,
        report::JobWords::ROWS,
        commands::CatalogueWords::ROWS,
        commands::FixWords::ROWS,
        commands::HeadroomWords::ROWS,
        commands::OldCableWords::ROWS,
        commands::PackWords::ROWS,
        commands::PhoneWords::ROWS,
        commands::NewWords::ROWS,
        commands::ServeWords::ROWS,
        commands::StoreWords::ROWS,
        commands::WrittenWords::ROWS,
        missing::OnPaper::ROWS,
        commands::ReadingsWords::ROWS,
        commands::ReachWords::ROWS,
        design::DesignWords::ROWS,
        design::LimitWords::ROWS,
        design::ObstacleWords::ROWS,
        design::SpaceWords::ROWS,
        design::StepWords::ROWS,
        design::RemarkWords::ROWS,
        design::WayOutWords::ROWS,
        report::VerdictWords::ROWS,
        report::Counted::ROWS,
        report::Tightest::ROWS,
        report::Remark::ROWS,
        report::PowerReturn::ROWS,
        report::ShortCircuit::ROWS,
        report::Tolerance::ROWS,
        report::BandWords::ROWS,
        terms::TermSentence::ROWS,
        calculation::InputSource::ROWS,
        missing::Missing::ROWS,
        tolerance::ToleranceFactor::ROWS,
        office::Told::ROWS,
        locate::Problem::ROWS,
        locate::ReadingWords::ROWS,
        locate::PlaceWords::ROWS,
        locate::PictureWords::ROWS,
        locate::SizeWords::ROWS,
        locate::Answer::ROWS,
        locate::FromTable::ROWS,
        locate::AsDrawn::ROWS,
        locate::Dialogue::ROWS,
        refusals::ArgumentRefusal::ROWS,
        refusals::FileNote::ROWS,
        refusals::FileRefusal::ROWS,
        refusals::FolderRefusal::ROWS,
        refusals::InsteadOf::ROWS,
        refusals::NameRefusal::ROWS,
        refusals::PartRefusal::ROWS,
        refusals::ResultRefusal::ROWS,
        refusals::SiteRefusal::ROWS,
        refusals::StoreRefusal::ROWS,
        refusals::NotKept::ROWS,
        refusals::StoreFault::ROWS,
        refusals::UnfitWords::ROWS,
        refusals::LiveFault::ROWS,
        refusals::SystemRefusal::ROWS,
        refusals::OtherOfSystem::ROWS,
        office::OfficeRefusal::ROWS,
        phone::PhoneFileProblem::ROWS,
        design::FileComment::ROWS,
        locate::NotPossible::ROWS,
        survey::SurveyNote::ROWS,
    ];
    all.iter().flat_map(|rows| rows.iter())
}

fn words() -> Vec<[&'static str; 2]> {
    fn rows<T: Copy>(all: &[T], row: fn(T) -> [&'static str; 2]) -> Vec<[&'static str; 2]> {
        all.iter().map(|word| row(*word)).collect()
    }
    [
        rows(pack::Word::ALL, pack::Word::row),
        rows(drawing::Word::ALL, drawing::Word::row),
        rows(typeset::Word::ALL, typeset::Word::row),
        rows(bands::Band::ALL, bands::Band::row),
        rows(candidates::Candidate::ALL, candidates::Candidate::row),
        rows(locate::Kind::ALL, locate::Kind::row),
        rows(locate::SymptomKind::ALL, locate::SymptomKind::row),
        rows(locate::Mend::ALL, locate::Mend::row),
        rows(terms::Term::ALL, terms::Term::row),
        rows(publications::Publication::ALL, publications::Publication::row),
        rows(publications::EscapeDemand::ALL, publications::EscapeDemand::row),
        rows(publications::PanelAdvice::ALL, publications::PanelAdvice::row),
        rows(calculation::Quantity::ALL, calculation::Quantity::row),
        rows(calculation::Formula::ALL, calculation::Formula::row),
        rows(calculation::Symbol::ALL, calculation::Symbol::row),
        rows(calculation::FormulaSource::ALL, calculation::FormulaSource::row),
        rows(commands::AddressHead::ALL, commands::AddressHead::row),
        rows(commands::AskHead::ALL, commands::AskHead::row),
        rows(commands::OldCableHead::ALL, commands::OldCableHead::row),
        rows(commands::CompareHead::ALL, commands::CompareHead::row),
        rows(report::DangerWord::ALL, report::DangerWord::row),
        rows(report::JobHead::ALL, report::JobHead::row),
        rows(report::SymptomHead::ALL, report::SymptomHead::row),
        rows(commands::CatalogueHead::ALL, commands::CatalogueHead::row),
        rows(commands::LimitWord::ALL, commands::LimitWord::row),
        rows(design::ComparisonHead::ALL, design::ComparisonHead::row),
        rows(design::CountedPart::ALL, design::CountedPart::row),
        rows(design::DesignVerdict::ALL, design::DesignVerdict::row),
        rows(design::LackingPart::ALL, design::LackingPart::row),
        rows(design::UnknownPart::ALL, design::UnknownPart::row),
        rows(door::DoorWord::ALL, door::DoorWord::row),
        rows(reading::BadName::ALL, reading::BadName::row),
        rows(reading::Because::ALL, reading::Because::row),
        rows(reading::Dimension::ALL, reading::Dimension::row),
        rows(reading::SurveyReason::ALL, reading::SurveyReason::row),
        rows(reading::SurveyUnit::ALL, reading::SurveyUnit::row),
        rows(reading::Thing::ALL, reading::Thing::row),
        rows(reading::TomlMistake::ALL, reading::TomlMistake::row),
        rows(report::Label::ALL, report::Label::row),
        rows(report::SheetHead::ALL, report::SheetHead::row),
        rows(report::Head::ALL, report::Head::row),
        rows(report::Mark::ALL, report::Mark::row),
        rows(office::Label::ALL, office::Label::row),
        rows(refusals::FileKind::ALL, refusals::FileKind::row),
        rows(refusals::PartKind::ALL, refusals::PartKind::row),
        rows(refusals::KeptThing::ALL, refusals::KeptThing::row),
        rows(refusals::PartWord::ALL, refusals::PartWord::row),
        rows(refusals::UsageWord::ALL, refusals::UsageWord::row),
        rows(survey::SurveyHelp::ALL, survey::SurveyHelp::row),
        rows(survey::SurveyWord::ALL, survey::SurveyWord::row),
        rows(phone::PhoneShell::ALL, phone::PhoneShell::row),
        rows(locate::RowWord::ALL, locate::RowWord::row),
        rows(reading::SheetMistake::ALL, reading::SheetMistake::row),
        rows(reading::WrittenUnder::ALL, reading::WrittenUnder::row),
    ]
    .concat()
}

#[test]
fn every_row_says_something_in_both_languages() {
    for row in words().into_iter().chain(sentences().map(|(_, row, _)| *row)) {
        for text in row {
            assert!(!text.trim().is_empty() && text.trim() == text, "{row:?}");
        }
    }
}

/// Both texts of a row say every argument once at least; one that may be missing stands in a part that is left out.
#[test]
fn every_sentence_says_all_its_arguments_in_both_languages() {
    for (name, row, arguments) in sentences() {
        let known: BTreeSet<&str> = arguments.iter().map(|(argument, _)| *argument).collect();
        for text in row {
            let said = argument_names(text);
            let names: BTreeSet<&str> = said.iter().map(|(name, _)| name.as_str()).collect();
            assert_eq!(names, known, "{name}: {text}");
            for (argument, optional) in &said {
                let (_, kind) = arguments.iter().find(|(known, _)| known == argument).expect("known");
                assert!(*optional || !kind.starts_with("Option"), "{name}: {argument} in {text}");
            }
        }
    }
}

/// What is lettered in German is not English by oversight: only signs and words of both languages agree.
#[test]
fn german_lettering_differs_from_english() {
    let same: Vec<_> = drawing::Word::ALL.iter().filter(|word| word.row()[0] == word.row()[1]).collect();
    assert!(same.is_empty(), "{same:?}");
}
