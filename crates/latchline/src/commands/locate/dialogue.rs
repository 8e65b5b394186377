//! The dialogue of `locate` at the terminal: from what is told to the reading that proves the mend.

use super::lines::lines;
use crate::refusal::Result;
use latchline_answer::{Reader, brief, whole};
use latchline_finding::Figure;
use latchline_locate::input::{Row, RowProblem, check, read_item};
use latchline_locate::{Evidence, Located, Options, Plant, Rates, SymptomKind, locate, written};
use latchline_report::table::paragraph;
use latchline_words::locate::Dialogue as Words;
use std::io::{BufRead, BufReader, Read, Write};
use std::path::Path;
use std::process::ExitCode;

/// What the dialogue is about.
pub(super) struct Dialogue<'d, 'p, 'a> {
    pub plant: &'d Plant<'p>,
    pub reader: Reader<'a>,
    pub rates: &'d Rates,
    pub options: Options,
    pub site_file: &'d Path,
    /// What was given on the command line already.
    pub given: &'d [String],
    pub width: usize,
}

/// What somebody typed.
enum Typed {
    /// Something.
    Line(String),
    /// Enter alone.
    Nothing,
    /// `q`, or the end of the input.
    Stop,
}

/// Where questions are asked and answers typed.
struct Prompt<'t> {
    input: BufReader<&'t mut dyn Read>,
    output: &'t mut dyn Write,
    width: usize,
}

impl Prompt<'_> {
    fn say(&mut self, text: &str) -> Result<()> {
        self.output.write_all(paragraph(text, 0, self.width).as_bytes())?;
        Ok(())
    }

    fn ask(&mut self, question: &str) -> Result<Typed> {
        self.say(question)?;
        self.output.write_all(b"> ")?;
        self.output.flush()?;
        let mut line = String::new();
        if self.input.read_line(&mut line)? == 0 {
            self.output.write_all(b"\n")?;
            return Ok(Typed::Stop);
        }
        Ok(match line.trim() {
            "" => Typed::Nothing,
            "q" | "Q" => Typed::Stop,
            text => Typed::Line(text.to_string()),
        })
    }
}

impl Dialogue<'_, '_, '_> {
    /// Asks until a cause is sure enough and its mend is proved, or until somebody stops.
    ///
    /// # Errors
    /// If the terminal cannot be read or written.
    pub fn run(
        &self,
        mut evidence: Evidence,
        notes: &[String],
        input: &mut dyn Read,
        output: &mut dyn Write,
    ) -> Result<ExitCode> {
        let language = self.reader.language;
        let mut prompt = Prompt { input: BufReader::new(input), output, width: self.width };
        let mut items: Vec<String> = self.given.to_vec();
        for note in notes {
            prompt.say(note)?;
        }
        prompt.say(Words::Begin.say(language).as_str())?;
        let goes_on = !evidence.symptoms.is_empty() || self.told(&mut prompt, &mut evidence, &mut items)?;
        if goes_on {
            self.readings(&mut prompt, &mut evidence, &mut items)?;
        }
        let command =
            ["latchline locate".to_string(), latchline_finding::shown::path(self.site_file).to_string()]
                .into_iter()
                .chain(items.iter().map(|item| latchline_finding::shown::for_shell(item)))
                .collect::<Vec<_>>()
                .join(" ");
        prompt.say(&Words::Repeat { command: &command }.say(language))?;
        Ok(ExitCode::SUCCESS)
    }

    /// Who complains, of what. `false` if somebody stops.
    fn told(
        &self,
        prompt: &mut Prompt<'_>,
        evidence: &mut Evidence,
        items: &mut Vec<String>,
    ) -> Result<bool> {
        let language = self.reader.language;
        let names: Vec<String> = SymptomKind::ALL.iter().map(|kind| kind.name()).collect();
        loop {
            let station = match prompt.ask(&Words::Station.say(language))? {
                Typed::Stop => return Ok(false),
                Typed::Nothing => return Ok(true),
                Typed::Line(station) => station,
            };
            // The place is tried with something that holds of any station.
            if let Err(problem) = self.item(&format!("{station}=works")) {
                prompt.say(problem.message.of(language))?;
                continue;
            }
            loop {
                let question = Words::Told { name: &station, known: &names.join(", ") }.say(language);
                let told = match prompt.ask(&question)? {
                    Typed::Stop => return Ok(false),
                    Typed::Nothing => break,
                    Typed::Line(told) => told,
                };
                let words: Vec<String> = told
                    .split([',', ' '])
                    .filter(|word| !word.is_empty())
                    .map(|word| format!("{station}={word}"))
                    .collect();
                let found: Result<Vec<Evidence>, RowProblem> =
                    words.iter().map(|item| self.item(item)).collect();
                match found {
                    Ok(found) => {
                        for one in found {
                            evidence.symptoms.extend(one.symptoms);
                            evidence.measured.extend(one.measured);
                        }
                        items.extend(words);
                        break;
                    }
                    Err(problem) => prompt.say(problem.message.of(language))?,
                }
            }
        }
    }

    /// One reading after the other.
    fn readings(
        &self,
        prompt: &mut Prompt<'_>,
        evidence: &mut Evidence,
        items: &mut Vec<String>,
    ) -> Result<()> {
        let language = self.reader.language;
        loop {
            let found = locate(self.plant, evidence, self.rates, &self.options);
            prompt.output.write_all(b"\n")?;
            self.answer(prompt, evidence, &found)?;
            if found.is_sure {
                self.mended(prompt, &found)?;
                return Ok(());
            }
            let question = if found.next.is_some() { Words::Reading } else { Words::More };
            loop {
                let line = match prompt.ask(&question.say(language))? {
                    Typed::Stop | Typed::Nothing => return Ok(()),
                    Typed::Line(line) => line,
                };
                if line == "all" {
                    let text =
                        lines(&whole(&self.reader, evidence, &found, &self.options, &[], None), self.width);
                    prompt.output.write_all(text.as_bytes())?;
                    continue;
                }
                let next = found.next.as_ref().map(|next| &next.quantity);
                if let ("none", Some(next)) = (line.as_str(), next) {
                    evidence.out_of_reach.push(next.clone());
                    break;
                }
                let item = match next {
                    Some(next) if !line.contains('=') => format!("{}={line}", written(self.plant, next)),
                    _ => line,
                };
                match self.item(&item) {
                    Ok(more) => {
                        evidence.measured.extend(more.measured);
                        evidence.symptoms.extend(more.symptoms);
                        items.push(item);
                        break;
                    }
                    Err(problem) => prompt.say(problem.message.of(language))?,
                }
            }
        }
    }

    /// What is known so far, in a few lines.
    fn answer(&self, prompt: &mut Prompt<'_>, evidence: &Evidence, found: &Located) -> Result<()> {
        let said = if evidence.is_empty() || found.is_sure {
            whole(&self.reader, evidence, found, &self.options, &[], None)
        } else {
            brief(&self.reader, evidence, found, &self.options)
        };
        prompt.output.write_all(lines(&said, self.width).as_bytes())?;
        Ok(())
    }

    /// The reading that proves the mend.
    fn mended(&self, prompt: &mut Prompt<'_>, found: &Located) -> Result<()> {
        let language = self.reader.language;
        let Some(proof) = &found.proof else { return Ok(()) };
        let reading = self.reader.reading(&proof.quantity);
        let figure = |value: f64| -> Figure { self.reader.figure(&proof.quantity, value) };
        let (low, high) = (figure(proof.low), figure(proof.high));
        loop {
            let question = Words::Mended { reading: &reading, low, high }.say(language);
            let Typed::Line(line) = prompt.ask(&question)? else { return Ok(()) };
            match self.item(&format!("{}={line}", written(self.plant, &proof.quantity))) {
                Ok(read) => {
                    let is_right =
                        read.measured.iter().all(|one| one.value >= proof.low && one.value <= proof.high);
                    let words = if is_right { Words::Proved } else { Words::NotProved };
                    return prompt.say(words.say(language).as_str());
                }
                Err(problem) => prompt.say(problem.message.of(language))?,
            }
        }
    }

    /// One item as it would stand on the command line.
    fn item(&self, text: &str) -> Result<Evidence, RowProblem> {
        let row: Row = read_item(text, 1)?;
        let checked = check(self.plant, &[row]);
        match checked.problems.into_iter().next() {
            Some(problem) => Err(problem),
            None => Ok(checked.evidence),
        }
    }
}
