//! `headroom`.

use crate::row::sentences;

sentences! {
    /// What `headroom` says.
    pub enum HeadroomWords<'a> {
        Working:
            "adding to every run and supply, and checking the whole each time"
            | "ergänze jeden Strang und jedes Netzteil und prüfe jedes Mal das Ganze",
        NothingThere: "nothing carries stations yet" | "noch trägt nichts Stationen",
        Metres: "metres" | "Meter",
        Title:
            "More stations of one model, or more metres, on each supply and run:"
            | "Weitere Stationen eines Modells, oder weitere Meter, an jedem Netzteil und Strang:",
        Fails { errors: usize, codes: &'a str }:
            "This site fails as it is ({errors:error|errors}: {codes}): the figures tell how much more brings no further error, not that it works."
            | "Diese Anlage fällt durch, wie sie ist ({errors:Fehler|Fehler}: {codes}): Die Zahlen sagen, wie viel mehr keinen weiteren Fehler bringt, nicht dass sie arbeitet.",
        Supplies:
            "What a supply carries is at least that: the better of two ways, port after port and in turn over all ports with room, was added and checked. Spread so:"
            | "Was ein Netzteil trägt, ist mindestens das: Die bessere von zwei Weisen, Abgang nach Abgang und reihum über alle Abgänge mit Platz, wurde ergänzt und geprüft. So verteilt:",
        Spread { supply: &'a str, of_models: &'a str }: "{supply}: {of_models}" | same,
        FreePort { ports: &'a str, like: &'a str, cable: &'a str, environment: &'a str, first: &'a str, spacing: &'a str }:
            "Assumed of the free ports {ports}: a new run like {like}: {cable}, {environment}, {first} m to its first station and {spacing} m between."
            | "Angenommen für die freien Abgänge {ports}: ein neuer Strang wie {like}: {cable}, {environment}, {first} m bis zur ersten Station und {spacing} m dazwischen.",
        OneMore { limits: &'a str }: "One more would bring: {limits}." | "Was eins mehr brächte: {limits}.",
        Spacing:
            "New stations are taken to be as far apart as those of the run are on average, on a free port as on the run of the same box; where they will be farther, put them into the site file and check it."
            | "Neue Stationen sind im mittleren Abstand der Stationen des Strangs angenommen, an einem freien Abgang wie am Strang desselben Verteilers; liegen sie weiter auseinander, in die Anlagendatei eintragen und prüfen.",
        Alone:
            "Each figure alone: what one row uses up, another no longer has. A calculation, not a certificate."
            | "Jede Zahl für sich: Was eine Zeile verbraucht, fehlt einer anderen. Eine Berechnung, kein Nachweis.",
    }
}
