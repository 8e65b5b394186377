//! What may lie behind a reading that is not what the plan says.

use crate::row::words;
use latchline_finding::{Both, Language};

words! {
    /// A cause that would explain it.
    pub enum Candidate {
        Branch: "branch" | "Abzweig",
        DampCable: "damp cable" | "feuchte Leitung",
        Joint: "joint" | "schlechte Verbindung",
        LongerCable: "longer cable" | "längere Leitung",
        OpenConductor: "open conductor" | "unterbrochene Ader",
        PairsInParallel: "pairs in parallel" | "parallele Paare",
        ShortCircuitOnTheWay: "short circuit on the way" | "Kurzschluss unterwegs",
        ShorterCable: "shorter cable" | "kürzere Leitung",
        SlipOfTheUnit: "slip of the unit (kilohm for ohm)" | "verwechselte Einheit (Kiloohm statt Ohm)",
        ThickerConductor: "thicker conductor" | "dickere Ader",
        ThinnerConductor: "thinner conductor" | "dünnere Ader",
    }
}

impl Candidate {
    /// As an argument of a finding; programs read it in kebab case.
    pub fn argument(self) -> Both {
        self.both().named(self.say(Language::English).replace(' ', "-"))
    }
}
