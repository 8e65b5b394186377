//! Causes, places, readings and figures in words.

use latchline_finding::{Figure, Language, Unit};
use latchline_locate::{
    Cause, Element, Hypothesis, Kind, Legs, Place, PlaceShare, Quantity, Size, place_name,
};
use latchline_network::readings::ReadingPlace;
use latchline_site::model::Site;
use latchline_words::figures;
use latchline_words::locate::{Answer, PlaceWords, ReadingWords, SizeWords};
use latchline_words::states;

/// A part of a place that has less of its probability is not named with it.
const LEAST_SHARE_OF_PLACE: f64 = 0.02;

/// Whom it is said to.
pub struct Reader<'a> {
    /// About which site.
    pub site: &'a Site,
    /// In which language.
    pub language: Language,
}

impl Reader<'_> {
    /// A probability in whole per cent, never 0 or 100 of what is neither.
    pub fn share(&self, probability: f64) -> Figure {
        let percent = (100.0 * probability).round().clamp(1.0, 99.0);
        Figure { value: if probability >= 1.0 { 1.0 } else { percent / 100.0 }, unit: Unit::Percent }
    }

    /// What a cause is and where.
    pub fn cause(&self, cause: Cause) -> String {
        let kind = cause.kind.say(self.language);
        match self.element(cause.element) {
            Some(element) => format!("{kind}, {element}"),
            None => String::from(kind),
        }
    }

    /// Where a cause lies.
    pub fn element(&self, element: Element) -> Option<String> {
        let name = element.name(self.site);
        (!name.is_empty()).then(|| latchline_finding::shown::prose(&name).into_owned())
    }

    /// One place to look at; `None` for the site as a whole.
    pub fn place(&self, share: &PlaceShare) -> Option<String> {
        let named = self.element(share.place.element())?;
        let Place::Section { run, section } = share.place else { return Some(named) };
        let at = self.site.stop_id(self.site.runs[run].sections[section].to).to_string();
        let at = latchline_finding::shown::prose(&at).into_owned();
        let beside = share.probability - share.in_section;
        Some(if beside < LEAST_SHARE_OF_PLACE * share.probability {
            PlaceWords::Section { section: &named }.say(self.language)
        } else if share.in_section < LEAST_SHARE_OF_PLACE * share.probability {
            at
        } else {
            PlaceWords::With { section: &named, at: &at }.say(self.language)
        })
    }

    /// How large a cause is.
    pub fn size(&self, kind: Kind, size: &Size) -> String {
        let figure = |value: f64, unit: Unit| Figure { value: rounded(value, FIGURES), unit };
        let of = |unit: Unit| SizeWords::Ohms {
            best: figure(size.best, unit),
            low: figure(size.low, unit),
            high: figure(size.high, unit),
        };
        let words = match kind {
            Kind::ThinConductor | Kind::CladAluminium | Kind::LongerRun | Kind::SupplyLow => {
                SizeWords::Times {
                    best: in_whole_percent(size.best),
                    low: in_whole_percent(size.low),
                    high: in_whole_percent(size.high),
                }
            }
            Kind::Short => SizeWords::Along {
                low: figure(size.low, Unit::Percent),
                high: figure(size.high, Unit::Percent),
            },
            Kind::StationOverdraw | Kind::DoorOverdraw => of(Unit::Watt),
            Kind::BridgedTap => of(Unit::Metre),
            _ => of(Unit::Ohm),
        };
        words.say(self.language)
    }

    /// What is read, where and how.
    pub fn reading(&self, quantity: &Quantity) -> String {
        let name =
            |place: ReadingPlace| latchline_finding::shown::prose(&place_name(self.site, place)).into_owned();
        let place = name(quantity.place());
        let when = quantity.state().map(|state| states::exactly(&state.named(self.site), self.language));
        let (place, when) = (place.as_str(), when.as_deref());
        let words = match quantity {
            Quantity::Voltage { .. } => ReadingWords::Voltage { place, when },
            Quantity::Drop { from, legs, .. } => {
                let from = &name(*from);
                let words = match legs {
                    Legs::Both => ReadingWords::Drop { from, to: place, when },
                    Legs::One => ReadingWords::LegDrop { from, to: place, when },
                };
                return words.say(self.language);
            }
            Quantity::Current { at, .. } => {
                let start = &match at {
                    ReadingPlace::Run(run) => self.site.start_id(self.site.runs[*run].from).to_string(),
                    _ => String::new(),
                };
                let start = &*latchline_finding::shown::prose(start);
                let words = match at {
                    ReadingPlace::Run(_) => ReadingWords::CurrentInRun { run: place, start, when },
                    ReadingPlace::Supply(_) | ReadingPlace::BoxOutput(_) => {
                        ReadingWords::CurrentOut { place, when }
                    }
                    _ => ReadingWords::CurrentIn { place, when },
                };
                return words.say(self.language);
            }
            Quantity::Loop { .. } => ReadingWords::Loop { place },
            Quantity::Insulation { .. } => ReadingWords::Insulation { place },
            Quantity::Earth { .. } => ReadingWords::Earth { place },
            Quantity::Capacitance { .. } => ReadingWords::Capacitance { place },
        };
        words.say(self.language)
    }

    /// A figure of a reading.
    pub fn figure(&self, quantity: &Quantity, value: f64) -> Figure {
        Figure { value: rounded(value, FIGURES), unit: quantity.unit() }
    }

    /// The same in words.
    pub fn value(&self, quantity: &Quantity, value: f64) -> String {
        if value.is_infinite() {
            return String::from("open");
        }
        figures::sentence(self.figure(quantity, value), self.language)
    }

    /// One cause in a line: its probability, what, where, how large.
    pub fn line(&self, hypothesis: &Hypothesis, probability: f64, size: Option<&Size>) -> String {
        let cause = hypothesis.cause;
        let size = size.filter(|size| size.low > 0.0).map(|size| self.size(cause.kind, size));
        let element = self.element(cause.element);
        Answer::Cause {
            share: self.share(probability),
            cause: cause.kind.say(self.language),
            element: element.as_deref(),
            size: size.as_deref(),
        }
        .say(self.language)
    }
}

/// How many figures of a reading count.
const FIGURES: i32 = 3;

/// A share, or what is times so much of the plan, in whole per cent.
pub fn in_whole_percent(times: f64) -> Figure {
    Figure { value: (100.0 * times).round() / 100.0, unit: Unit::Percent }
}

/// A value with so many figures that count.
pub fn rounded(value: f64, figures: i32) -> f64 {
    if value == 0.0 || !value.is_finite() {
        return value;
    }
    let scale = 10.0_f64.powf(f64::from(figures - 1) - value.abs().log10().floor());
    (value * scale).round() / scale
}
