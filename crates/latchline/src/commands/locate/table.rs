//! `latchline locate --table`: the table of faults, and what readings say from it alone.

use super::form::Format;
use super::table_json::{Ranked, json, what};
use crate::refusal::{Refusal, Result};
use latchline_answer::{Reader, in_whole_percent, rounded};
use latchline_finding::{Figure, Locale, Unit, Units};
use latchline_handover::tables::fault_sheet;
use latchline_handover::{Cell, Options, PackInput, Row, Stamp, Subject, Table};
use latchline_locate::{
    Dictionary, Evidence, FaultTable, Kind, Plant, Share, SheetPlace, SheetReading, SheetValue, reads,
};
use latchline_report::table::{hanging, paragraph};
use latchline_session::View;
use latchline_words::locate::{Answer, FromTable};
use latchline_words::refusals::ResultRefusal;

/// So many causes of a ranking are printed.
const MOST_LISTED: usize = 10;

/// What it is made from.
pub(super) struct FromTheTable<'t, 'p> {
    pub plant: &'t Plant<'p>,
    pub reader: Reader<'t>,
    pub faults: &'t FaultTable,
    /// What has to be known first.
    pub notes: &'t [String],
    pub width: usize,
}

impl FromTheTable<'_, '_> {
    /// The table.
    ///
    /// # Errors
    /// If the site has to be assessed anew, or the result cannot be serialised.
    pub fn table(&self, view: &View, stamp: &Stamp, format: Format) -> Result<String> {
        match format {
            Format::Text | Format::Short => self.table_text(view, stamp),
            Format::Csv => self.table_csv(),
            Format::Json => json(self.reader.site, &self.faults.sheet, None, self.notes),
        }
    }

    /// What readings say from it.
    ///
    /// # Errors
    /// If the table has none of them, or the result cannot be serialised.
    pub fn ranking(&self, evidence: &Evidence, format: Format) -> Result<String> {
        let dictionary: &Dictionary = &self.faults.dictionary;
        let read = reads(dictionary, self.plant, evidence);
        if read.is_empty() {
            return Err(Refusal::new(FromTable::NothingRead));
        }
        let (shares, none) = dictionary.rank(&read);
        let left_out = self.left_out(evidence);
        match format {
            Format::Text | Format::Short => Ok(self.ranking_text(&shares, none, &left_out)),
            Format::Csv => {
                let mut rows = vec![["kind", "element", "probability", "size"].map(String::from)];
                rows.extend(shares.iter().map(|one| {
                    let size = one.size.map_or(String::new(), |size| size.to_string());
                    [one.kind.name(), String::from(one.element), one.probability.to_string(), size]
                }));
                csv_of(&rows)
            }
            Format::Json => {
                let (shares, used) = (&shares[..], read.len());
                let ranked = Ranked { shares, none_of_these: none, used, left_out };
                json(self.reader.site, &self.faults.sheet, Some(ranked), self.notes)
            }
        }
    }

    /// What was given and the table does not have, as it was read.
    fn left_out(&self, evidence: &Evidence) -> Vec<String> {
        let dictionary = &self.faults.dictionary;
        let is_unknown = |one: &&latchline_locate::Measured| {
            let alone = Evidence { measured: vec![(*one).clone()], ..Evidence::default() };
            reads(dictionary, self.plant, &alone).is_empty()
        };
        let readings = evidence.measured.iter().filter(is_unknown);
        let mut all: Vec<String> = readings.map(|one| self.reader.reading(&one.quantity)).collect();
        all.extend(evidence.symptoms.iter().map(|told| {
            let at = &self.reader.site.stations[told.station].id;
            let told = told.kind.say(self.reader.language);
            format!("{} ({told})", latchline_finding::shown::prose(at.as_str()))
        }));
        all
    }

    fn ranking_text(&self, shares: &[Share<'_>], none: f64, left_out: &[String]) -> String {
        let (reader, language, width) = (&self.reader, self.reader.language, self.width);
        let mut out = String::new();
        for note in self.notes {
            out.push_str(&paragraph(note, 0, width));
        }
        out.push_str(&paragraph(&FromTable::Head.say(language), 0, width));
        if !left_out.is_empty() {
            let items = &left_out.join("; ");
            out.push_str(&paragraph(&FromTable::Without { items }.say(language), 0, width));
        }
        for one in shares.iter().take(MOST_LISTED) {
            let element = latchline_finding::shown::prose(one.element);
            let size = one.size.filter(|size| *size > 0.0 && !one.element.is_empty());
            let size = size.map(|size| about(one.kind, size).say(language));
            let line = Answer::Cause {
                share: reader.share(one.probability),
                cause: one.kind.say(language),
                element: Some(&*element).filter(|element| !element.is_empty()),
                size: size.as_deref(),
            };
            out.push_str(&hanging("  ", &line.say(language), width));
        }
        let rest = shares.iter().skip(MOST_LISTED);
        let (causes, share) = rest.fold((0, 0.0), |(count, sum), one| (count + 1, sum + one.probability));
        if causes > 0 {
            let more = Answer::AndMore { causes, share: reader.share(share) };
            out.push_str(&hanging("  ", &more.say(language), width));
        }
        let none = Answer::NoneOfThese { share: reader.share(none) };
        out.push_str(&hanging("  ", &none.say(language), width));
        out.push_str(&paragraph(&Answer::Caution.say(language), 0, width));
        out
    }

    fn table_text(&self, view: &View, stamp: &Stamp) -> Result<String> {
        let width = self.width;
        let unusable = || Refusal::new(ResultRefusal::NoPack);
        let (Some(assessment), Some(readings)) = (view.assessment()?, view.readings()?) else {
            return Err(unusable());
        };
        let locale = Locale { language: self.reader.language, units: Units::Metric };
        let options = Options { locale, ..Options::default() };
        let input = PackInput {
            site: self.reader.site,
            assessment,
            readings: &readings,
            cut_list: &[],
            reading_findings: &assessment.read,
            faults: Some(self.faults),
        };
        let subject = Subject::new(&input, &options, stamp);
        let table = fault_sheet(&subject, &self.faults.sheet);
        let mut out = String::new();
        let notes = self.notes.iter().chain(&table.notes);
        notes.for_each(|note| out.push_str(&paragraph(note, 0, width)));
        // Below each heading stands what is so without a fault, then fault by fault.
        let of_place = |place: &SheetPlace| -> Vec<Option<Vec<SheetValue>>> {
            std::iter::once(None).chain(place.rows.iter().map(|row| Some(row.values.to_vec()))).collect()
        };
        let mut values = self.faults.sheet.places.iter().flat_map(of_place);
        for row in &table.rows {
            match row {
                Row::Heading(name) => {
                    let name = latchline_finding::shown::prose(name);
                    out.push_str(&format!("\n{}", paragraph(&name, 0, width)));
                }
                Row::Cells(cells) => {
                    let line = line_of(&subject, &table, cells, values.next().flatten().as_deref());
                    out.push_str(&hanging("  ", &line, width));
                }
            }
        }
        Ok(out)
    }

    fn table_csv(&self) -> Result<String> {
        const HEAD: [&str; 14] = [
            "what",
            "element",
            "kinds",
            "probability",
            "begin_low_v",
            "begin_high_v",
            "end_low_v",
            "end_high_v",
            "current_low_a",
            "current_high_a",
            "loop_low_ohm",
            "loop_high_ohm",
            "insulation_low_ohm",
            "insulation_high_ohm",
        ];
        let mut rows = vec![HEAD.map(String::from).to_vec()];
        for place in &self.faults.sheet.places {
            let begin = || vec![String::from(what(place.element)), place.element.name(self.reader.site)];
            let mut planned = begin();
            planned.extend([String::new(), String::new()]);
            for reading in &place.readings {
                planned.extend(reading.as_ref().map_or([String::new(), String::new()], as_planned));
            }
            rows.push(planned);
            for row in &place.rows {
                let mut cells = begin();
                let kinds: Vec<String> = row.kinds.iter().map(|kind| kind.name()).collect();
                cells.extend([kinds.join(" "), row.share.to_string()]);
                for (value, reading) in row.values.iter().zip(&place.readings) {
                    cells.extend(match (value, reading) {
                        (SheetValue::Between { low, high }, _) => [low.to_string(), finite(*high)],
                        (SheetValue::Nothing, _) => [0.0, 0.0].map(|value: f64| value.to_string()),
                        (SheetValue::Open, _) => ["open", "open"].map(String::from),
                        (SheetValue::AsPlanned, Some(reading)) => as_planned(reading),
                        (SheetValue::AsPlanned | SheetValue::Unread, _) => [String::new(), String::new()],
                    });
                }
                rows.push(cells);
            }
        }
        csv_of(&rows)
    }
}

/// Columns before those of readings: where, what, how often.
const BEFORE_READINGS: usize = 3;

/// A row on one line: how probable, what, and what is not as planned; `values` are those of a fault.
fn line_of(subject: &Subject<'_>, table: &Table, cells: &[Cell], values: Option<&[SheetValue]>) -> String {
    let locale = &subject.locale;
    let share = match &cells[BEFORE_READINGS - 1] {
        Cell::Empty => String::new(),
        cell => format!("{} % ", locale.cell_text(cell, None)),
    };
    let is_said = |at: usize, text: &str| {
        let is_as_planned = values
            .is_some_and(|values| matches!(values.get(at), Some(SheetValue::AsPlanned | SheetValue::Unread)));
        !is_as_planned && text != latchline_handover::table::MISSING
    };
    let readings = cells.iter().zip(&table.columns).skip(BEFORE_READINGS).enumerate();
    let shown = readings.filter_map(|(at, (cell, column))| {
        let text = cell.words();
        let unit = column.unit.filter(|_| text.ends_with(|sign: char| sign.is_ascii_digit()));
        is_said(at, text).then(|| match unit {
            Some(unit) => format!("{}: {text} {unit}", column.title),
            None => format!("{}: {text}", column.title),
        })
    });
    let shown: Vec<String> = shown.collect();
    format!("{share}{} | {}", cells[1].words(), shown.join("; "))
}

fn about(kind: Kind, size: f64) -> FromTable<'static> {
    match kind.size_unit() {
        Unit::Percent if kind == Kind::Short => FromTable::AboutAlong { size: in_whole_percent(size) },
        Unit::Percent => FromTable::AboutOfPlan { size: in_whole_percent(size) },
        // The sizes of the table stand far apart.
        unit => FromTable::About { size: Figure { value: rounded(size, 2), unit } },
    }
}

/// What is planned of a reading: least and most, the latter empty where it has none.
fn as_planned(reading: &SheetReading) -> [String; 2] {
    [reading.low.to_string(), finite(reading.high)]
}

fn finite(value: f64) -> String {
    if value.is_finite() { value.to_string() } else { String::new() }
}

/// Rows as CSV (RFC 4180), the same in every language.
fn csv_of<R: AsRef<[String]>>(rows: &[R]) -> Result<String> {
    let mut writer =
        csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::<u8>::new());
    for row in rows {
        writer.write_record(row.as_ref()).map_err(std::io::Error::from)?;
    }
    let bytes = writer.into_inner().map_err(|error| error.into_error())?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}
