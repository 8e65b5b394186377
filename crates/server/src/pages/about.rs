//! What all details of elements have in common: words, figures, findings.

use crate::work::State as SiteState;
use latchline_assess::{DeviceResult, MarginStep, VoltageResults};
use latchline_finding::{Finding, Language, Locale, Severity};
use latchline_site::model::Site;
use latchline_words::codes;
use latchline_words::figures;
use latchline_words::office::Label;
use maud::{Markup, html};

/// What is said of elements of a site, from one state of it.
pub(crate) struct About<'a> {
    pub site: &'a Site,
    pub results: &'a VoltageResults,
    pub state: &'a SiteState,
    pub locale: Locale,
}

/// What of a margin is thin, fair or ample, as the drawing has it.
pub(crate) fn step(margin_v: f64, thin_v: f64) -> &'static str {
    MarginStep::of(margin_v, thin_v).word()
}

impl About<'_> {
    pub fn language(&self) -> Language {
        self.locale.language
    }

    pub fn say(&self, label: Label) -> &'static str {
        label.say(self.language())
    }

    pub fn volts(&self, value: f64) -> String {
        figures::volts(value, self.language())
    }

    pub fn amperes(&self, value: f64) -> String {
        figures::amperes(value, self.language())
    }

    pub fn up(&self, value: f64, decimals: usize) -> String {
        figures::decimals(figures::rounded_up(value, decimals), self.language())
    }

    pub fn length(&self, metres: f64) -> String {
        let figure = latchline_finding::Figure::new(metres, latchline_finding::Unit::Metre);
        let (value, decimals, symbol) = self.locale.scaled(figure);
        format!("{} {symbol}", self.locale.trimmed(value, usize::from(decimals)))
    }

    pub fn result(&self, id: &str) -> Option<&DeviceResult> {
        self.results.devices.iter().find(|device| device.id.as_str() == id)
    }

    pub fn findings(&self, of: &[&str]) -> Markup {
        let language = self.language();
        let about = |finding: &&Finding| {
            let element = finding.element.as_ref().map_or("", |element| element.as_str());
            of.iter().any(|id| {
                element == *id || element.strip_prefix(id).is_some_and(|rest| rest.starts_with('.'))
            })
        };
        let all: Vec<&Finding> = self.state.findings.iter().filter(about).collect();
        html! {
            @if !all.is_empty() {
                h3 { (self.say(Label::Findings)) }
                ul.plain-list {
                    @for finding in all {
                        li class={ "is-" (finding.severity.word()) } {
                            strong.severity {
                                (match (finding.accepted.is_some(), finding.severity) {
                                    (true, _) => Label::Accepted,
                                    (_, Severity::Error) => Label::Fails,
                                    (_, Severity::Warning) => Label::Warning,
                                    (_, Severity::Advice) => Label::Advice,
                                }.say(language))
                            }
                            " " (codes::sentence(finding, language)) "."
                        }
                    }
                }
            }
        }
    }
}
