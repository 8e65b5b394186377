//! Pictures of an answer: where to look on the elevation, the voltage along the way, how the probabilities moved.

use crate::reader::Reader;
use latchline_assess::Assessment;
use latchline_drawing::{
    CourseChart, CoursePoint, ShareChart, ShareLine, SheetOptions, Suspect, SuspectPlace, course_sheets,
    elevation_with_suspects, share_sheets,
};
use latchline_locate::{
    Course, Element, Evidence, Located, Moved, Options, Place, PlaceShare, Plant, Rates, courses, moves,
    place_name,
};
use latchline_scene::Scene;
use latchline_words::locate::PictureWords;
use latchline_words::states;

/// Places that are marked, at most, and the least probability of one.
const MOST_MARKED: usize = 8;
const LEAST_MARKED: f64 = 0.01;
/// Causes that are named of a place.
const MOST_NAMED: usize = 2;
/// Places whose probability is followed: the likeliest of the end, then those that led on the way there.
const MOST_FOLLOWED: usize = 5;
const MOST_LED: usize = 2;
/// What is told is named at its step, up to so many.
const MOST_TOLD: usize = 3;

/// All that the pictures are drawn from.
pub struct Pictures<'a> {
    /// The site.
    pub plant: &'a Plant<'a>,
    /// What was judged of it.
    pub assessment: &'a Assessment,
    /// Whom they are for.
    pub reader: &'a Reader<'a>,
    /// What is known.
    pub evidence: &'a Evidence,
    /// How often causes are met.
    pub rates: &'a Rates,
    /// What was asked.
    pub options: &'a Options,
    /// The answer.
    pub located: &'a Located,
    /// What the sheets are drawn for.
    pub sheets: SheetOptions,
}

impl Pictures<'_> {
    /// Every picture with its name: where to look, the voltages, the probabilities; each on as many sheets as it takes.
    pub fn draw(&self) -> [(&'static str, Vec<Scene>); 3] {
        let site = self.reader.site;
        [
            ("suspects", elevation_with_suspects(site, self.assessment, &self.suspects(), &self.sheets)),
            ("voltages", course_sheets(site, self.assessment, &self.courses(), &self.sheets)),
            ("probabilities", share_sheets(site, self.assessment, &self.shares(), &self.sheets)),
        ]
    }

    /// Places to look at, with what may be wrong at each.
    fn suspects(&self) -> Vec<Suspect> {
        let shown = self.located.places.iter().take_while(|place| place.probability >= LEAST_MARKED);
        let suspect = |place: &PlaceShare| Suspect {
            place: marked(place.place),
            share: self.percent(place.probability),
            words: PictureWords::Suspect { place: &self.place(place), causes: &self.causes(place) }
                .say(self.reader.language),
        };
        shown.take(MOST_MARKED).map(suspect).collect()
    }

    /// The likeliest causes at a place.
    fn causes(&self, place: &PlaceShare) -> String {
        let of = |member: &usize| {
            let (hypothesis, posterior) = self.located.cause(*member);
            let cause = hypothesis.cause.kind.say(self.reader.language);
            format!("{cause} {}", self.percent(posterior.probability))
        };
        let shown = |member: &&usize| self.located.ranking.causes[**member].probability >= LEAST_MARKED;
        let named: Vec<String> = place.members.iter().filter(shown).take(MOST_NAMED).map(of).collect();
        match named.is_empty() {
            true => place.members.iter().take(1).map(of).collect(),
            false => named.join(", "),
        }
    }

    /// What a place is called; of a fault that has none the site itself.
    fn place(&self, place: &PlaceShare) -> String {
        let site = || PictureWords::WholeSite.say(self.reader.language);
        self.reader.element(place.place.element()).unwrap_or_else(site)
    }

    fn percent(&self, probability: f64) -> String {
        latchline_words::figures::sentence(self.reader.share(probability), self.reader.language)
    }

    fn courses(&self) -> Vec<CourseChart> {
        let Some(cause) = (!self.located.ranking.causes.is_empty()).then_some(0) else { return Vec::new() };
        let (hypothesis, posterior) = self.located.cause(cause);
        let with = self.reader.line(hypothesis, posterior.probability, posterior.size.as_ref());
        let language = self.reader.language;
        let chart = |course: Course| {
            let name = |stop: Option<&latchline_locate::CourseStop>| {
                stop.map_or(String::new(), |stop| place_name(self.reader.site, stop.at))
            };
            let when = states::exactly(&course.state.named(self.reader.site), language);
            let (from, to) = (name(course.stops.first()), name(course.stops.last()));
            let is_followed = course.stops.iter().any(|stop| stop.with_cause_v.is_some());
            CourseChart {
                title: PictureWords::Way { from: &from, to: &to, when: &when }.say(language),
                subtitle: match is_followed {
                    true => PictureWords::WithCause { cause: &with }.say(language),
                    false => PictureWords::NoVoltage { cause: &with }.say(language),
                },
                points: course
                    .stops
                    .into_iter()
                    .map(|stop| CoursePoint {
                        name: place_name(self.reader.site, stop.at),
                        distance_m: stop.distance_m,
                        planned_v: stop.planned_v,
                        with_cause_v: stop.with_cause_v,
                        read_v: stop.read_v,
                    })
                    .collect(),
            }
        };
        courses(self.plant, self.evidence, self.located, cause).into_iter().map(chart).collect()
    }

    fn shares(&self) -> ShareChart {
        let moved = moves(self.plant, self.evidence, self.rates, self.options, self.located);
        let language = self.reader.language;
        let share_at = |step: &Moved, place: Place| {
            step.places.iter().find(|share| share.place == place).map_or(0.0, |share| share.probability)
        };
        let mut followed: Vec<&PlaceShare> =
            self.located.places.iter().filter(|share| share.probability >= LEAST_MARKED).collect();
        followed.truncate(MOST_FOLLOWED);
        let mut led: Vec<&PlaceShare> = Vec::new();
        for step in moved.iter().rev().skip(1) {
            let Some(first) = step.places.first() else { continue };
            if followed.iter().chain(&led).all(|known| known.place != first.place) {
                led.push(first);
            }
        }
        led.truncate(MOST_LED);
        let line = |share: &&PlaceShare| {
            let shares: Vec<f64> = moved.iter().map(|step| share_at(step, share.place)).collect();
            let last = shares.last().copied().unwrap_or(0.0);
            ShareLine { name: format!("{} · {}", self.percent(last), self.place(share)), shares }
        };
        let mut lines: Vec<ShareLine> = followed.iter().chain(&led).map(line).collect();
        let none: Vec<f64> = moved.iter().map(|step| step.none_of_these).collect();
        lines.push(ShareLine {
            name: format!(
                "{} · {}",
                self.percent(none.last().copied().unwrap_or(0.0)),
                PictureWords::NoneOfThese.say(language)
            ),
            shares: none,
        });
        ShareChart { steps: moved.iter().map(|step| self.step(step)).collect(), lines }
    }

    /// What became known at a step.
    fn step(&self, step: &Moved) -> String {
        let language = self.reader.language;
        if let Some(measured) = step.readings.checked_sub(1).map(|last| &self.evidence.measured[last]) {
            let (reading, value) = (
                self.reader.reading(&measured.quantity),
                self.reader.value(&measured.quantity, measured.value),
            );
            return PictureWords::ReadingIs { reading: &reading, value: &value }.say(language);
        }
        if !step.is_told {
            return PictureWords::NothingKnown.say(language);
        }
        let told: Vec<String> = self
            .evidence
            .symptoms
            .iter()
            .take(MOST_TOLD)
            .map(|symptom| {
                let station = self.reader.site.stations[symptom.station].id.as_str();
                format!("{} {}", latchline_finding::shown::prose(station), symptom.kind.say(language))
            })
            .collect();
        let more = self.evidence.symptoms.len().checked_sub(MOST_TOLD).filter(|more| *more > 0);
        PictureWords::Told { told: &told.join(", "), more }.say(language)
    }
}

/// What is marked of a place.
fn marked(place: Place) -> SuspectPlace {
    match place {
        Place::Section { run, section } => SuspectPlace::Section { run, section },
        Place::Run(run) => SuspectPlace::Run(run),
        Place::Element(element) => match element {
            Element::Section { run, section } => SuspectPlace::Section { run, section },
            Element::Run(run) => SuspectPlace::Run(run),
            Element::Station(station) => SuspectPlace::Station(station),
            Element::Box(index) | Element::Port { box_index: index, .. } => SuspectPlace::Box(index),
            Element::Supply(supply) => SuspectPlace::Supply(supply),
            Element::Entrance(entrance) => SuspectPlace::Door(entrance),
            Element::Site => SuspectPlace::Nowhere,
        },
    }
}
