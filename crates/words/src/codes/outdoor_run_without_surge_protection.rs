//! `outdoor-run-without-surge-protection`

code! {
    "outdoor-run-without-surge-protection"
    title: "A run outdoors without surge protection" | "Ein Strang im Freien ohne Überspannungsschutz",
    short: "no surge protection" | "ohne Überspannungsschutz",
    message:
        "run {element}, {value} long, goes outdoors< to {stop}> without surge protection"
        | "Strang {element}, {value} lang, läuft ohne Überspannungsschutz ins Freie<, zu {stop}>",
    hint:
        "fit surge protectors where it enters a building; they add resistance, which surge_protection states"
        | "Überspannungsschutz einbauen, wo der Strang in ein Gebäude eintritt; er bringt Widerstand mit, den surge_protection nennt",
    english:
        /// # What it checks
        /// Runs outdoors, in the ground, or from one building to another, and runs of which no `environment` is stated and that lead
        /// to a device outdoors, away from all buildings, for which no surge protector is stated, neither in the run nor at an entrance that it leads to. Up to 42 m it is a piece of advice,
        /// beyond a warning.
        ///
        /// The 42 m (140 ft) are borrowed from an informational note to NEC 800.90, by which a protector on
        /// a communications cable between buildings may be left out up to that length under conditions; how that note
        /// is to be read is disputed, so take it as a hint. IEC 62305-4 and IEC 61643-22 are the standards by
        /// which protection is planned. The length is that of the whole run.
        ///
        /// # Why it matters
        /// Lightning nearby puts kilovolts between two earths. The long cable carries them to every station on the
        /// bus, and all of them fail together.
        ///
        /// # Example
        /// 80 m of buried cable to the gate, no protector at either end.
        ///
        /// # What to do
        /// Fit a protector for signal lines where the cable enters the building, another one at the far
        /// device, and state the loop resistance of each as `surge_protection`: it counts in all voltages. A run from one
        /// building to another then has one at each end, another run one where it starts; `surge_protection_at` says
        /// otherwise, `surge_earth` the conductor that earths each.
    german:
        /// # Was geprüft wird
        /// Stränge im Freien, im Erdreich oder von einem Gebäude zum anderen, und Stränge ohne `environment`, die zu einem Gerät im
        /// Freien abseits aller Gebäude führen, für die kein Überspannungsschutz angegeben ist, weder im Strang noch an einem Eingang, zu dem er führt. Bis 42 m ist es ein Hinweis,
        /// darüber eine Warnung.
        ///
        /// Die 42 m (140 ft) sind einer Anmerkung zu NEC 800.90 entlehnt, nach der ein Schutz an einer
        /// Fernmeldeleitung zwischen Gebäuden bis zu dieser Länge unter Bedingungen entfallen kann; wie sie zu
        /// lesen ist, ist strittig, also als Anhalt nehmen. IEC 62305-4 und IEC 61643-22 sind die Normen, nach
        /// denen Schutz geplant wird. Die Länge ist die des ganzen Strangs.
        ///
        /// # Warum es zählt
        /// Ein Blitz in der Nähe legt Kilovolt zwischen zwei Erden. Die lange Leitung trägt sie zu jeder Station am
        /// Bus, und alle fallen zusammen aus.
        ///
        /// # Beispiel
        /// 80 m Erdkabel zum Tor, an keinem Ende ein Schutz.
        ///
        /// # Was zu tun ist
        /// Wo die Leitung ins Gebäude eintritt, einen Schutz für Signalleitungen einbauen, einen weiteren am fernen
        /// Gerät, und den Schleifenwiderstand jedes Geräts als `surge_protection` angeben: Er zählt in allen Spannungen. Ein Strang von
        /// einem Gebäude zum anderen hat dann an jedem Ende eines, ein anderer dort, wo er beginnt; `surge_protection_at` sagt es
        /// anders, `surge_earth` nennt den Erdungsleiter.
}
