//! `headroom`.

use crate::row::sentences;

sentences! {
    /// What `headroom` says.
    pub enum HeadroomWords<'a> {
        Working:
            "adding to every run and supply, and checking the whole each time"
            | "ergänze jeden Strang und jedes Netzteil und prüfe jedes Mal das Ganze",
        NothingThere: "no run has stations yet" | "noch hat kein Strang Stationen",
        Metres: "metres" | "Meter",
        First { model: &'a str, of: &'a str }:
            "At least so many more {model}, the model that most dwellings here have: {of}."
            | "Mindestens so viele {model} mehr, das Modell der meisten Wohnungen hier: {of}.",
        NotOneMore { model: &'a str, of: &'a str }:
            "Not one more {model}, the model that most dwellings here have: {of}."
            | "Kein {model} mehr, das Modell der meisten Wohnungen hier: {of}.",
        NoneOn { supply: &'a str, title: &'a str }: "none on {supply} ({title})" | "keines an {supply} ({title})",
        Title:
            "More stations of one model, or more metres, on each supply and run:"
            | "Weitere Stationen eines Modells, oder weitere Meter, an jedem Netzteil und Strang:",
        Fails { errors: usize, codes: &'a str }:
            "This site fails as it is ({errors:error|errors}: {codes}): the figures say how much more brings no further error, not that it works."
            | "Diese Anlage fällt durch, wie sie ist ({errors:Fehler|Fehler}: {codes}): Die Zahlen sagen, wie viel mehr keinen weiteren Fehler bringt, nicht dass sie arbeitet.",
        Supplies:
            "On a whole supply at least this many work. They were added and checked in two ways, port by port and one to each port in turn; the better way, model by model:"
            | "An einem ganzen Netzteil arbeiten mindestens so viele. Sie wurden auf zwei Weisen ergänzt und geprüft, Abgang für Abgang und reihum je Abgang eine; die bessere, Modell für Modell:",
        Placed { count: usize, at: &'a str }: "{count} at {at}" | "{count} an {at}",
        Spread { supply: &'a str, of_models: &'a str }: "{supply}: {of_models}" | same,
        FreePort { ports: &'a str, like: &'a str, cable: &'a str, environment: &'a str, first: &'a str, spacing: &'a str }:
            "At free ports ({ports}) a new run like {like} was assumed: {cable}, {environment}, {first} m to its first station and {spacing} m between stations."
            | "An freien Abgängen ({ports}) ist ein neuer Strang wie {like} angenommen: {cable}, {environment}, {first} m bis zur ersten Station und {spacing} m dazwischen.",
        OneMore { limits: &'a str }: "Why not one more: {limits}." | "Warum nicht eines mehr: {limits}.",
        Spacing:
            "New stations are assumed as far apart as those of the run on average; on a free port, as on a run of the same box. If they will be farther apart, add them to the site file and check it."
            | "Neue Stationen sind im mittleren Abstand der Stationen des Strangs angenommen; an einem freien Abgang wie an einem Strang desselben Verteilers. Liegen sie weiter auseinander, in die Anlagendatei eintragen und prüfen.",
        Alone:
            "Each row holds alone, not together with others: they share one supply. A calculation, not a certificate."
            | "Jede Zeile gilt für sich, nicht mit anderen zusammen: Sie teilen ein Netzteil. Eine Berechnung, kein Nachweis.",
    }
}
