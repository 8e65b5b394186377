//! One place to look at: what somebody who goes there has before them.

use crate::hypothesis::Hypothesis;
use crate::kind::Element;
use crate::plant::Plant;
use crate::posterior::Ranking;
use latchline_network::{NodeRef, Segment};
use latchline_site::model::{RunStart, Site};

/// One place to look at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Place {
    /// A length of cable with the terminals at both its ends, the port that it starts from, and what it leads to: a station or a box.
    Section {
        /// Index into [`Site::runs`].
        run: usize,
        /// Section of that run.
        section: usize,
    },
    /// A whole run.
    Run(usize),
    /// A station or box to which no section leads, a supply, a door or the site as a whole.
    Element(Element),
}

/// A place with the causes that would be found there.
#[derive(Debug, Clone, PartialEq)]
pub struct PlaceShare {
    /// Where.
    pub place: Place,
    /// Indices into [`Ranking::causes`], the most probable first.
    pub members: Vec<usize>,
    /// Their probability together.
    pub probability: f64,
    /// Of that, the probability of what lies in the section and at its terminals, where the place is one.
    pub in_section: f64,
}

impl Place {
    /// Where a cause is found.
    pub fn of(plant: &Plant<'_>, element: Element) -> Place {
        let site = plant.site;
        let leads_to = |at: Option<NodeRef>| {
            let at = at?;
            match plant.layout.stages[at.stage].segment[at.node] {
                Segment::Cable { run, section } => Some(Place::Section { run, section }),
                _ => None,
            }
        };
        match element {
            Element::Section { run, section } => Place::Section { run, section },
            Element::Run(run) => Place::Run(run),
            Element::Station(station) => {
                leads_to(plant.layout.station[station]).unwrap_or(Place::Element(element))
            }
            Element::Box(index) => leads_to(plant.layout.box_input[index]).unwrap_or(Place::Element(element)),
            Element::Port { box_index, port } => {
                first_section(site, RunStart::Port { box_index, port }).unwrap_or(Place::Element(element))
            }
            Element::Supply(_) | Element::Entrance(_) | Element::Site => Place::Element(element),
        }
    }

    /// What it is named after: the section, or the element.
    pub fn element(self) -> Element {
        match self {
            Place::Section { run, section } => Element::Section { run, section },
            Place::Run(run) => Element::Run(run),
            Place::Element(element) => element,
        }
    }
}

/// The first section of the run that starts there.
fn first_section(site: &Site, start: RunStart) -> Option<Place> {
    let run = site.runs.iter().position(|run| run.from == start)?;
    Some(Place::Section { run, section: 0 })
}

/// Every place with a cause, the most probable first.
pub(crate) fn places(plant: &Plant<'_>, hypotheses: &[Hypothesis], ranking: &Ranking) -> Vec<PlaceShare> {
    let mut shares: Vec<PlaceShare> = Vec::new();
    for (index, cause) in ranking.causes.iter().enumerate() {
        let element = hypotheses[cause.hypothesis].cause.element;
        let place = Place::of(plant, element);
        let in_section = if matches!(element, Element::Section { .. }) { cause.probability } else { 0.0 };
        match shares.iter_mut().find(|share| share.place == place) {
            Some(share) => {
                share.members.push(index);
                share.probability += cause.probability;
                share.in_section += in_section;
            }
            None => shares.push(PlaceShare {
                place,
                members: vec![index],
                probability: cause.probability,
                in_section,
            }),
        }
    }
    shares.sort_by(|a, b| b.probability.total_cmp(&a.probability).then(a.place.cmp(&b.place)));
    shares
}
