//! `store`.

use crate::row::sentences;
use latchline_finding::Both;

sentences! {
    /// What `store` says.
    pub enum StoreWords<'a> {
        Undamaged { store: &'a str, revisions: usize, answers: usize }:
            "{store} is undamaged: {revisions:revision|revisions}, {answers:answer|answers}"
            | "{store} ist unbeschädigt: {revisions:Stand|Stände}, {answers:Auskunft|Auskünfte}",
        NoSite: "it holds no site yet" | "sie enthält noch keine Anlage",
        Site { name: &'a str, file: &'a str, revision: &'a str, date: &'a str, by: Option<&'a str> }:
            "{name} ({file}): revision {revision}, {date}< by {by}>"
            | "{name} ({file}): Stand {revision}, {date}< von {by}>",
        Saved { file: &'a str }:
            "the earlier store was saved as {file}" | "die frühere Ablage wurde als {file} gesichert",
        Restored { store: &'a str }: "restored {store}" | "{store} zurückgeholt",
        Same { file: &'a str }:
            "{file}: already the same as in the store" | "{file}: schon so wie in der Ablage",
        FileWritten { file: &'a str }: "{file}: written" | "{file}: geschrieben",
        TakenIn { file: &'a str, revision: &'a str }:
            "{file}: was changed by another program; that is revision {revision} now"
            | "{file}: von einem anderen Programm geändert; das ist jetzt Stand {revision}",
        Differs { file: &'a str, revision: &'a str }:
            "{file}: differs from the store. The file is left alone and saved as revision {revision}; choose between them on the office page"
            | "{file}: anders als in der Ablage. Die Datei bleibt, wie sie ist, und steht als Stand {revision} in der Ablage; auf der Büroseite zwischen beiden wählen",
        LeftAsIs { file: &'a str, why: &'a Both }: "{file}: is left as it is: {why}" | "{file}: bleibt, wie sie ist: {why}",
        NoDate: "at a moment beyond every calendar" | "zu einer Zeit jenseits aller Kalender",
    }
}
