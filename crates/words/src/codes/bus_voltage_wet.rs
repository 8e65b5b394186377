//! `bus-voltage-wet`

code! {
    "bus-voltage-wet"
    title: "More than 30 V DC outdoors" | "Mehr als 30 V Gleichspannung im Freien",
    short: "over 30 V outdoors" | "über 30 V im Freien",
    message:
        "{element} is outdoors on {value}; wet, only {limit} is safe to touch"
        | "{element} ist im Freien an {value}; bei Nässe nur bis {limit} berührungssicher",
    label: "<fed from {source}>" | "<gespeist von {source}>",
    hint:
        "keep bare terminals out of reach behind a cover that needs a tool"
        | "blanke Klemmen hinter einer Abdeckung, die nur mit Werkzeug aufgeht, unerreichbar machen",
    english:
        /// # What it checks
        /// Stations and boxes outdoors or in the wet on a bus of more than 30 V DC, by the nominal voltage of
        /// their supply as set.
        ///
        /// By BS 7671 regulation 414.4.5 (IEC 60364-4-41 likewise) basic protection is generally not needed for SELV
        /// and PELV circuits up to 60 V DC where it is dry and no large area of skin touches, and up to 30 V DC in all
        /// other cases, ripple-free; with more than 10 % of ripple, 12 V as for alternating current. "Basic protection" is insulation or an enclosure that keeps fingers off live parts.
        ///
        /// # Why it matters
        /// A door station's housing usually is that enclosure. A junction box that stands open, or terminals behind a
        /// front that can be taken off without a tool, are not.
        ///
        /// # Example
        /// The gate's door station hangs on a bus of 48 V.
        ///
        /// # What to do
        /// See that terminals and joints outdoors sit in closed enclosures with the right degree of
        /// protection. The code that holds on site, and who is responsible there, decide.
    german:
        /// # Was geprüft wird
        /// Stationen und Verteiler im Freien oder im Nassen an einem Bus mit mehr als 30 V DC, nach der
        /// eingestellten Nennspannung ihres Netzteils.
        ///
        /// Nach BS 7671, Abschnitt 414.4.5 (ebenso IEC 60364-4-41), ist Basisschutz bei SELV und PELV im
        /// Allgemeinen nicht nötig bis 60 V DC, wo es trocken ist und keine große Hautfläche berührt, und bis 30 V
        /// DC in allen anderen Fällen, oberwellenfrei; mit mehr als 10 % Welligkeit 12 V wie bei Wechselstrom.
        /// „Basisschutz“ ist eine Isolation oder Umhüllung, die Finger von aktiven Teilen fernhält.
        ///
        /// # Warum es zählt
        /// Das Gehäuse einer Türstation ist meist diese Umhüllung. Eine offen stehende Abzweigdose oder Klemmen
        /// hinter einer Front, die sich ohne Werkzeug abnehmen lässt, sind es nicht.
        ///
        /// # Beispiel
        /// Die Türstation am Tor hängt an einem Bus mit 48 V.
        ///
        /// # Was zu tun ist
        /// Dafür sorgen, dass Klemmen und Verbindungen im Freien in geschlossenen Gehäusen der richtigen Schutzart
        /// sitzen. Die Regel, die vor Ort gilt, und wer dort verantwortlich ist, entscheiden.
}
