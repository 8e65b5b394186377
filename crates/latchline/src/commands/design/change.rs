//! `latchline design --from`: an installed site changed as a newer survey asks.

use super::survey::LoadedSurvey;
use super::words::amount;
use crate::difference::difference;
use crate::failure::UNUSABLE;
use crate::files::{MayReplace, refuse_inputs};
use crate::load::Opened;
use crate::refusal::{Refused, Result};
use crate::{files, load, output};
use latchline_design::change::{Changed, From, change};
use latchline_finding::{Language, Money, shown};
use latchline_report::Look;
use latchline_report::json_edits::{ChangeDocument, changes};
use latchline_site::LoadedCatalogues;
use latchline_words::commands::WrittenWords;
use latchline_words::design::DesignWords;
use latchline_words::refusals::ResultRefusal;
use serde::Serialize;
use std::fmt::Write as _;
use std::io::Write;
use std::path::Path;
use std::process::ExitCode;

/// A change of an installed site, as it was asked for.
pub(super) struct Change<'a> {
    /// The file of the site.
    pub installed: &'a Path,
    /// Where the changed site goes.
    pub target: Option<&'a Path>,
    /// What may stand there.
    pub may_replace: MayReplace<'static>,
    /// Language of what is said to a person.
    pub language: Language,
    /// Whether the result is for programs.
    pub for_programs: bool,
    /// How what is wrong with the installed site is told.
    pub look: &'a Look,
}

impl Change<'_> {
    /// Runs the command with an installed site.
    ///
    /// # Errors
    /// If the site cannot be used or the result not be written.
    pub fn run(&self, survey: &LoadedSurvey, output: &mut dyn Write) -> Result<ExitCode> {
        let installed = self.installed;
        let Opened { session, files: read, .. } = load::open(installed, &mut std::io::empty())?;
        if let Some(file) = self.target {
            refuse_inputs(&read, file)?;
        }
        let view = session.view();
        let (sources, site_file) = (view.sources(), view.site_file());
        // Resolved with the survey's own prices.
        let prices = survey.survey.prices.clone();
        let catalogues = LoadedCatalogues::with_prices(sources, view.catalogues(), prices);
        let resolved = catalogues.resolve(sources, site_file);
        let Some(site) = &resolved.site else {
            crate::commands::tell(&sources.file(site_file).name, sources, &resolved.findings, self.look);
            return Ok(ExitCode::from(UNUSABLE));
        };
        let from = From { sources, site_file, catalogues: &catalogues, site };
        let before = view.text();
        let (text, status) = match change(&survey.survey, from) {
            Ok(changed) => {
                if let Some(file) = self.target {
                    files::write(file, changed.text.as_bytes(), self.may_replace)?;
                }
                let text = if self.for_programs {
                    json(&changed)?
                } else {
                    self.told(&changed, before, &survey.catalogues.catalogue().currency)?
                };
                (text, 0)
            }
            Err(obstacle) => {
                let text = if self.for_programs {
                    latchline_report::json::text(&serde_json::json!({ "obstacle": obstacle.to_string() }))?
                } else {
                    let obstacle = &obstacle.say(self.language);
                    DesignWords::NoChange { obstacle }.say(self.language) + "\n"
                };
                (text, 1)
            }
        };
        output::put(&text, output)?;
        Ok(ExitCode::from(status))
    }

    fn told(&self, changed: &Changed, before: &str, currency: &str) -> Result<String> {
        let language = self.language;
        let say = |words: DesignWords<'_>| words.say(language);
        let mut text = String::new();
        if changed.steps.is_empty() {
            writeln!(text, "{}", say(DesignWords::NothingAsked))?;
        }
        for (index, step) in changed.steps.iter().enumerate() {
            let mut words = step.words.of(language).to_string();
            if step.cost > Money::ZERO {
                let cost = &amount(step.cost, language);
                words = say(DesignWords::StepCost { step: &words, cost, currency });
            }
            writeln!(text, "{}. {words}", index + 1)?;
        }
        for left in &changed.left {
            writeln!(text, "{}", say(DesignWords::Left { what: left.of(language) }))?;
        }
        if !changed.steps.is_empty() {
            let cost = &amount(changed.cost, language);
            let words = DesignWords::ChangeCost { cost, currency, judged: changed.judged };
            writeln!(text, "\n{}\n", say(words))?;
            text.push_str(&difference(before, &changed.text));
        }
        if let Some(file) = self.target {
            let file = &shown::path(file);
            let (wrote, next) =
                (WrittenWords::Wrote { file }.say(language), WrittenWords::NextCheck { file }.say(language));
            writeln!(text, "\n{wrote}\n{next}")?;
        }
        Ok(text)
    }
}

#[derive(Serialize)]
struct Json<'a> {
    verdict: &'a str,
    cost: f64,
    changes_judged: usize,
    steps: Vec<StepJson<'a>>,
    left: Vec<&'a str>,
}

#[derive(Serialize)]
struct StepJson<'a> {
    words: &'a str,
    cost: f64,
    edits: Vec<ChangeDocument>,
}

fn json(changed: &Changed) -> Result<String> {
    let steps = changed.steps.iter().map(|step| StepJson {
        words: step.words.of(Language::English),
        cost: step.cost.as_units(),
        edits: changes(&step.edit),
    });
    let json = Json {
        verdict: changed.assessment.verdict.word(),
        cost: changed.cost.as_units(),
        changes_judged: changed.judged,
        steps: steps.collect(),
        left: changed.left.iter().map(|left| left.of(Language::English)).collect(),
    };
    latchline_report::json::text(&json).refused(|| ResultRefusal::NoJson)
}
