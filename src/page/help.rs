use leptos::prelude::*;

use super::keeper::Keeper;
use super::preferences::{self, Theme};
use super::widgets::{TileChoice, Tiles};
use super::{dom, paths};
use crate::present::FIRST_CAUTION;

/// How a shoe is marked, how a reading is written, what to beware of.
#[component]
pub(super) fn HelpPage() -> impl IntoView {
    dom::set_title("Help and cautions");
    view! {
        <div class="page-head"><div><h1>"Help and cautions"</h1></div></div>
        <div class="prose">
            <Cautions />
            <Marking />
            <Readings />
            <Marks />
            <Alike />
            <Sealing />
            <Keeping />
            <LightAndDark />
        </div>
    }
}

#[component]
fn Cautions() -> impl IntoView {
    view! {
        <div class="notice" data-kind="warn">
            <p><b>"Before the first reading"</b></p>
            <p>{FIRST_CAUTION}</p>
        </div>
        <h2>"Cautions"</h2>
        <ul>
            <li>
                "Iron that no longer glows still burns. Cool it, dry it, and file its edges before anybody takes it in hand."
            </li>
            <li>
                "At the fire: eye and ear protection, and nobody in the way of the first weld blow. Mind the people at the next anvil. Lift heavy things with two people or a trolley."
            </li>
            <li>
                "Fume and flux: air the forge, mind that flux irritates, and never heat zinc-coated steel."
            </li>
            <li>
                "A horse is shod only under the law and the licensed practice of the place. A mark here allows nobody to shoe one."
            </li>
            <li>"Therapeutic shoes are made and fitted under veterinary direction."</li>
            <li>
                "The marks are the examiner’s. The rules of the college or awarding body decide what they count for."
            </li>
        </ul>
    }
}

#[component]
fn Marking() -> impl IntoView {
    view! {
        <h2>"Marking a shoe"</h2>
        <ol>
            <li>
                "Start a piece on the bench: whose it is, which rubric, what for. With a ticket the learner stays unnamed until the seal."
            </li>
            <li>
                "Go down the mark sheet. Enter what you measure, choose a level for what you judge, tick the faults you see. Enter leads to the next field."
            </li>
            <li>
                "Look at the marks and the reason beside each line. What cannot be read stays as you typed it, with a word on what is wrong."
            </li>
            <li>
                "Where a part was not made, cannot be measured or does not apply, say so in the line’s own states. Nothing is guessed for you."
            </li>
            <li>"Seal it when it is done, and print the scored sheet."</li>
        </ol>
        <h3>"The first impression"</h3>
        <p>
            "A rubric may ask how good the piece is at a first look. Give it before you measure: from the first reading on it is locked, and the sheet shows it beside the total. It may be left out. It gives no marks, unless the rubric counts it as one of its criteria."
        </p>
        <h3>"Marking your own piece"</h3>
        <p>
            "Alone: start it with the sitting “Self-check”. Beside an examiner: choose “Examiner and maker”. Neither sees what the other gave until both have sealed; then both stand side by side. A piece that is sealed can be marked again from its sheet."
        </p>
    }
}

#[component]
fn Readings() -> impl IntoView {
    let ways = [
        ("10.2 or 10,2", "a number in the sheet’s unit"),
        ("10,2 mm", "the unit that you write counts"),
        ("3/8 or 1 1/2", "a fraction is inches"),
        (
            "0.5..0.6",
            "between the last feeler that goes in and the first that does not",
        ),
        (
            "under, within, over",
            "what a gauge says of the limit, without a number",
        ),
    ];
    let rows = ways
        .into_iter()
        .map(|(written, meant)| {
            view! { <tr><th scope="row">{written}</th><td>{meant}</td></tr> }
        })
        .collect_view();
    view! {
        <h2 id="readings">"Writing a reading"</h2>
        <div class="scroller" role="region" aria-labelledby="readings" tabindex="0">
            <table class="table">
                <thead>
                    <tr><th scope="col">"Write"</th><th scope="col">"It means"</th></tr>
                </thead>
                <tbody>{rows}</tbody>
            </table>
        </div>
        <p>
            "Repeats of one reading are averaged. A reading taken hot is kept and never used for marks."
        </p>
        <p>
            "How long to cut and where to mark stands under " <b>"Plan the piece"</b> ", on the page of a rubric, with a bench card and a lay-on gauge to print."
        </p>
        <p>
            "Many readings can be taken from one photo of the shoe on a sheet of paper: " <b>"Photo gauge"</b>
            " on the mark sheet. " <a href=paths::PHOTO_HELP>"How it measures, with a drawing of every measure"</a>
        </p>
    }
}

#[component]
fn Marks() -> impl IntoView {
    let band = |at: u8| view! { <span class="band" data-band=at.to_string()></span> };
    view! {
        <h2>"How marks come about"</h2>
        <p>
            "Each line of the rubric has bands: this close to what was asked for gives these marks. A reading exactly on a limit is inside it. Nothing is rounded before marks are given; only what is printed is."
        </p>
        <p>
            "On the scale of a line, " {band(4)} " is all or nearly all marks, " {band(3)} " "
            {band(2)} " " {band(1)} " fewer with each notch less, and " {band(0)} " none."
        </p>
        <p>
            "A stop stands against the award whatever the marks are; all marks are recorded all the same. A line without marks leaves the result incomplete, and the sheet says which."
        </p>
    }
}

#[component]
fn Alike() -> impl IntoView {
    view! {
        <h2>"Do examiners mark alike?"</h2>
        <p>
            "Let a second examiner mark a piece, neither seeing what the other gave. From five such pieces by one rubric on, " <a href=paths::AGREEMENT>"Agreement between examiners"</a> " says how far marks lie apart, on which criteria, and whose words to write anew; and it plans a day on which all examiners mark the same pieces."
        </p>
    }
}

#[component]
fn Sealing() -> impl IntoView {
    view! {
        <h2>"Sealing"</h2>
        <p>
            "A seal fixes what was entered and the rubric’s text under a digest, a long number that comes out different if anything is changed. A sealed marking is not edited any more: to correct one, choose Correct this marking on its sheet: the correction says why, and both sheets stay."
        </p>
        <p>
            "Comments and photos can be erased from a sealed marking, on its sheet, and a learner’s name and details on the learner’s page, under Details. Marks and seals stand without them."
        </p>
        <h3>"Releasing marks"</h3>
        <p>
            "Marks of a practice are for the learner from the seal on. Those of a mock or an exam are held until somebody releases the sitting on the page "
            <a href=paths::SITTINGS>"Sittings"</a>
            ": until then the learner’s own page, the bench and the lists show none of them. The sheet says whether they are released, and when feedback was given. There are no logins: whoever holds this device can open a sheet, so hand it over with care."
        </p>
    }
}

#[component]
fn Keeping() -> impl IntoView {
    let keeper = Keeper::here();
    let place = if keeper.is_only_here() {
        "At this moment this browser keeps nothing for this page: what you enter is gone when the page is closed."
    } else {
        "Everything you enter is kept in this browser on this device, and nowhere else. Nothing is sent anywhere. Clearing this site’s data in the browser deletes it."
    };
    view! {
        <h2>"Where records live"</h2>
        <div class="notice"><p>{place}</p></div>
        <p>
            "Everything is saved as you type. Two tabs may be open on one piece: what is typed in both is kept, field by field."
        </p>
        <p>
            "On the page " <a href=paths::LEDGER>"Ledger"</a>
            " everything goes into one file in one press. Do that now and then, and keep the file on another device: it comes back onto this one or any other, and what is there stays."
        </p>
    }
}

#[component]
fn LightAndDark() -> impl IntoView {
    let theme = RwSignal::new(preferences::theme().word().to_owned());
    Effect::new(move |_| preferences::set_theme(Theme::from_word(&theme.get())));
    let choices = Theme::ALL
        .into_iter()
        .map(|theme| TileChoice::new(theme.word(), theme.title(), ""))
        .collect();
    view! {
        <h2>"Light and dark"</h2>
        <Tiles
            name="theme"
            legend="Light and dark"
            choices
            value=theme
            columns=3
            hides_legend=true
        />
    }
}
