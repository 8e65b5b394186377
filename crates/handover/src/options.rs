//! What a pack is made for.

use std::fmt;

/// For whom the pack is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Audience {
    /// Who wires, sets and tests: everything but prices.
    Installer,
    /// Who plans and buys: everything.
    #[default]
    Office,
    /// Who owns the building: no prices, no wiring, no settings.
    Client,
}

/// Size of printed sheets.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Paper {
    /// ISO 216 A4, 210 mm x 297 mm.
    #[default]
    A4,
    /// ANSI letter, 215.9 mm x 279.4 mm.
    Letter,
}

macro_rules! parts {
    ($($(#[$doc:meta])+ $name:ident $word:literal $client:literal;)+) => {
        /// A part of the pack.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
        pub enum Part { $($(#[$doc])+ $name,)+ }

        impl Part {
            /// Every part in the order of the pack.
            pub const ALL: &'static [Part] = &[$(Part::$name),+];

            /// Its name on the command line and in file names.
            pub fn name(self) -> &'static str {
                match self { $(Part::$name => $word),+ }
            }

            /// Whether the client gets it.
            fn is_for_client(self) -> bool {
                match self { $(Part::$name => $client),+ }
            }
        }
    };
}
parts! {
    /// System summary and verdict.
    Summary "summary" true;
    /// Revisions of the plan.
    Revisions "revisions" true;
    /// What is in hand: volts, amperes and stations by supply and run.
    InHand "in-hand" true;
    /// Calculation sheets: formula, inputs, source, result.
    Calculations "calculations" false;
    /// Wiring schedule, terminal by terminal.
    Wiring "wiring" false;
    /// Device schedule with addresses and switch positions, in walking order.
    Devices "devices" true;
    /// Cable list with the labels of both ends.
    Cables "cables" false;
    /// Lengths onto drums, with a bound on waste.
    CutList "cut-list" false;
    /// What must be bought.
    Parts "parts" true;
    /// Who calls whom.
    Calls "calls" true;
    /// Name lists of the button panels and directories.
    Names "names" true;
    /// Door sheets.
    Doors "doors" true;
    /// Interfaces to systems of other trades.
    Interfaces "interfaces" false;
    /// Battery and supply sheet.
    Supplies "supplies" true;
    /// Expected voltage at every terminal.
    Voltages "voltages" false;
    /// Commissioning before power.
    BeforePower "before-power" false;
    /// Commissioning with power.
    Live "live" false;
    /// Table of faults: what readings say where nobody can ask.
    Faults "faults" false;
    /// Snag list.
    Snags "snags" false;
    /// Handover record.
    Handover "handover" true;
    /// Trade words of the pack, and what it rests on without being stated.
    Glossary "glossary" true;
    /// Cupboards, a page each.
    Cupboards "cupboards" false;
    /// The whole system as blocks.
    Overview "overview" true;
    /// Elevation drawing.
    Elevation "elevation" true;
    /// Voltage along each run.
    Profiles "profiles" false;
    /// Signals at the weakest station against frequency.
    Signal "signal" false;
    /// Bus voltage against time when power returns.
    StartUp "start-up" false;
    /// Switch-setting cards.
    Cards "cards" false;
    /// Wiring pictures of the locks.
    LockWiring "lock-wiring" false;
    /// The order of work, which leads from job card to job card.
    OrderOfWork "work-sequence" false;
    /// Job cards: one for each cupboard, landing and door.
    JobCards "job-cards" false;
    /// Labels of devices and cable ends.
    Labels "labels" false;
}

impl Part {
    /// Its number in the order of the pack, from 1.
    pub fn number(self) -> usize {
        Part::ALL.iter().position(|part| *part == self).unwrap_or(0) + 1
    }

    /// The parts of the file that somebody carries or files alone, in its order; name lists of people are in none.
    fn of_file(audience: Audience) -> Vec<Part> {
        match audience {
            Audience::Installer => {
                vec![
                    Part::Revisions,
                    Part::OrderOfWork,
                    Part::Cupboards,
                    Part::JobCards,
                    Part::Interfaces,
                    Part::Overview,
                    Part::Elevation,
                    Part::Devices,
                    Part::CutList,
                    Part::Faults,
                    Part::Snags,
                    Part::Handover,
                    Part::Glossary,
                ]
            }
            Audience::Client => vec![
                Part::Summary,
                Part::Revisions,
                Part::Doors,
                Part::Devices,
                Part::Handover,
                Part::Glossary,
            ],
            Audience::Office => {
                let not_here = [Part::OrderOfWork, Part::JobCards, Part::Names, Part::Labels];
                Part::ALL.iter().copied().filter(|part| !not_here.contains(part)).collect()
            }
        }
    }

    /// Whether it is part of a pack for this audience.
    pub fn is_for(self, audience: Audience) -> bool {
        audience != Audience::Client || self.is_for_client()
    }
}

impl fmt::Display for Part {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.name())
    }
}

/// What a pack is made for. The default is an English, metric pack on A4 for the office.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Options {
    /// Language and units.
    pub locale: latchline_finding::Locale,
    /// Audience.
    pub audience: Audience,
    /// Size of sheets.
    pub paper: Paper,
    /// These parts alone; empty for all that the audience gets.
    pub only: Vec<Part>,
    /// Whether names of people are shown, and name lists of panels go into the files for one reader too.
    pub with_names: bool,
    /// Address under which the devices' pages are served; without one, QR codes carry text.
    pub base_url: Option<String>,
}

impl Audience {
    /// Everyone for whom a file is made.
    pub const ALL: [Audience; 3] = [Audience::Installer, Audience::Office, Audience::Client];

    /// Name of that file.
    pub fn file_name(self) -> &'static str {
        match self {
            Audience::Installer => "installer.pdf",
            Audience::Office => "office.pdf",
            Audience::Client => "client.pdf",
        }
    }
}

impl Options {
    /// For whom files of their own are made: in the office's pack for everyone, in another for that one alone; of single
    /// parts none.
    pub fn files_for(&self) -> Vec<Audience> {
        match (self.only.is_empty(), self.audience) {
            (false, _) => Vec::new(),
            (true, Audience::Office) => Audience::ALL.to_vec(),
            (true, audience) => vec![audience],
        }
    }

    /// The parts of the file of one reader, in its order.
    pub fn parts_of_file(&self, reader: Audience) -> Vec<Part> {
        let mut parts = Part::of_file(reader);
        if self.with_names {
            parts.push(Part::Names);
        }
        parts
    }

    /// What the client's file is made for, where this makes files for others too.
    pub fn of_client(&self) -> Option<Options> {
        let only = self.parts_of_file(Audience::Client);
        let is_for_all = self.files_for().len() > 1;
        is_for_all.then(|| Options { audience: Audience::Client, only, ..self.clone() })
    }

    /// Whether a part is wanted.
    pub fn wants(&self, part: Part) -> bool {
        part.is_for(self.audience) && (self.only.is_empty() || self.only.contains(&part))
    }

    /// Whether prices are shown.
    pub fn shows_prices(&self) -> bool {
        self.audience == Audience::Office
    }
}
