//! What is drawn, before it is arranged.

use super::card::{self, Card, CardIndex, CardKind, Trouble};
use super::card_picture;
use super::route::{self, Net};
use super::run_labels::LABEL_MM;
use super::run_look::{RunLook, usual_conductor};
use super::suspect::Suspect;
use crate::language::{Lettering, Phrase};
use crate::sheet::SheetOptions;
use crate::switches::address_words;
use latchline_assess::Assessment;
use latchline_scene::font::text_width_mm;
use latchline_site::model::{Site, StationOwner};
use std::collections::BTreeMap;

/// Everything that does not depend on how the site is arranged.
pub(super) struct Subject<'s> {
    pub(super) site: &'s Site,
    pub(super) cards: Vec<Card>,
    pub(super) widths: Vec<f64>,
    /// Height that each card needs; a row is as high as its highest.
    pub(super) heights: Vec<f64>,
    pub(super) nets: Vec<Net>,
    /// Length of the designation of each run, as it stands beside its beginning.
    pub(super) tags: Vec<f64>,
    pub(super) looks: Vec<RunLook>,
    /// The conductor that labels leave out.
    pub(super) usual: Option<String>,
    pub(super) troubles: BTreeMap<String, Trouble>,
    /// What is marked.
    pub(super) suspects: Vec<Suspect>,
    pub(super) lettering: Lettering,
}

pub(super) fn subject<'s>(site: &'s Site, assessment: &Assessment, options: &SheetOptions) -> Subject<'s> {
    let lettering = options.lettering();
    let troubles = card::troubles(site, &assessment.findings, lettering);
    let judged = (&assessment.devices[..], &assessment.sources[..]);
    let mut cards = card::cards(site, judged, &troubles, lettering);
    let index = CardIndex::new(site);
    for (station, address) in address_words(site, &assessment.addresses, lettering) {
        let card = &mut cards[index.station(station)];
        card.address = address;
        if let Some(others) = assessment.addresses.doubles(site, station) {
            let double = lettering.say(&Phrase::Double { others: &others });
            card.title = format!("{}; {double}", card.title);
            card.double = Some(double);
        }
    }
    if options.with_names {
        for (station, fitted) in site.stations.iter().enumerate() {
            let StationOwner::Dwelling { dwelling, .. } = fitted.owner else { continue };
            let Some(resident) = &site.dwellings[dwelling].label else { continue };
            let card = &mut cards[index.station(station)];
            card.title = format!("{}, {resident}", card.title);
            card.resident.clone_from(resident);
        }
    }
    let nets = route::nets(site, lettering.0.language);
    let terminals = route::terminals(&nets, cards.len());
    let pitches = route::pitches(&nets, cards.len());
    let base = card_picture::usual_width(&cards);
    let widths = cards.iter().zip(&terminals).zip(pitches).map(|((card, terminals), pitch)| {
        let spread = (terminals.len() + 1) as f64 * pitch;
        // Supplies say more than others; a card with trouble says all of it.
        let wanted = card_picture::wanted_width(card).min(44.0);
        let says_more = card.kind == CardKind::Supply || card.trouble.is_some() || card.double.is_some();
        let own = if says_more { wanted } else { 0.0 };
        base.max(spread).max(own).max(card_picture::least_width(card))
    });
    let widths: Vec<f64> = widths.collect();
    let heights = cards.iter().zip(&widths).map(|(card, width)| card_picture::height(card, *width)).collect();
    let usual = usual_conductor(site, lettering);
    let look = |run| RunLook::new(site, run, &troubles, usual.as_deref(), lettering);
    let looks = site.runs.iter().map(look).collect();
    Subject {
        site,
        widths,
        heights,
        nets,
        tags: site.runs.iter().map(|run| text_width_mm(run.id.as_str(), LABEL_MM, false)).collect(),
        looks,
        usual,
        troubles,
        suspects: Vec::new(),
        cards,
        lettering,
    }
}

impl Subject<'_> {
    /// What names a line that leaves a sheet: its run, and the card that it leads to where the run does so more than once.
    pub(super) fn flag_words(&self, run: usize, to: Option<usize>) -> String {
        let run = self.site.runs[run].id.as_str();
        match to {
            Some(card) => self.lettering.say(&Phrase::RunTo { run, to: &self.cards[card].element }),
            None => run.to_string(),
        }
    }
}
