//! What is drawn, before it is arranged.

use super::card::{self, Card, CardIndex, CardKind, Trouble};
use super::card_picture;
use super::route::{self, Net};
use super::run_look::{RunLook, usual_conductor};
use crate::font::text_width_mm;
use crate::language::{Lettering, Phrase};
use crate::switches::address_words;
use latchline_assess::Assessment;
use latchline_site::model::Site;
use std::collections::BTreeMap;

/// Everything that does not depend on how the site is arranged.
pub(super) struct Subject<'s> {
    pub(super) site: &'s Site,
    pub(super) cards: Vec<Card>,
    pub(super) widths: Vec<f64>,
    pub(super) card_height: f64,
    pub(super) nets: Vec<Net>,
    pub(super) looks: Vec<RunLook>,
    /// The conductor that labels leave out.
    pub(super) usual: Option<String>,
    pub(super) troubles: BTreeMap<String, Trouble>,
    pub(super) lettering: Lettering,
}

pub(super) fn subject<'s>(site: &'s Site, assessment: &Assessment, lettering: Lettering) -> Subject<'s> {
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
    let nets = route::nets(site);
    let troubled = cards.iter().any(|card| card.trouble.is_some());
    let doubled = cards.iter().any(|card| card.double.is_some());
    let terminals = route::terminals(&nets, cards.len());
    let base = card_picture::usual_width(&cards, troubled);
    let widths = cards.iter().zip(&terminals).map(|(card, terminals)| {
        let spread = (terminals.len() + 1) as f64 * card_picture::TERMINAL_MM;
        // Supplies say more than others; a card with trouble says all of it.
        let wanted = card_picture::wanted_width(card).min(44.0);
        let says_more = card.kind == CardKind::Supply || card.trouble.is_some() || card.double.is_some();
        let own = if says_more { wanted } else { 0.0 };
        base.max(spread).max(own)
    });
    let widths: Vec<f64> = widths.collect();
    let lines =
        cards.iter().zip(&widths).map(|(card, width)| card_picture::trouble_lines(card, *width).len());
    let most_lines = lines.max().unwrap_or(0);
    let usual = usual_conductor(site, lettering);
    let look = |run| RunLook::new(site, run, &troubles, usual.as_deref(), lettering);
    let looks = site.runs.iter().map(look).collect();
    Subject {
        site,
        widths,
        card_height: card_picture::height(most_lines, doubled),
        nets,
        looks,
        usual,
        troubles,
        cards,
        lettering,
    }
}

impl Subject<'_> {
    /// Room that the designation of a run and a sheet number need beyond a match line.
    pub(super) fn flag_mm(&self) -> f64 {
        let longest = self.site.runs.iter().map(|run| text_width_mm(&format!("{} → 99", run.id), 2.5, true));
        longest.fold(10.0, f64::max).min(34.0) + 3.5
    }
}
