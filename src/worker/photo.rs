use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use kurbo::Point;

use crate::gauge::decode::decode;
use crate::gauge::{Ask, Picture, Stage, look, shown};
use crate::job::{NotMeasured, PhotoFound, PhotoWanted};

/// Measures a shoe in a photo; `tell` hears how many of the stages are over, as a share of all
/// of them: opening the file, and those of [`Stage`].
///
/// *Errors:* in words, for people: what is no photo.
pub(super) fn photo(wanted: &PhotoWanted, tell: &mut dyn FnMut(f64)) -> Result<PhotoFound, String> {
    let bytes = STANDARD.decode(&wanted.photo);
    let bytes = bytes.map_err(|_| "The photo did not come whole; choose it again.".to_owned())?;
    let photo = decode(&bytes).map_err(|why| why.to_string())?;
    drop(bytes);
    let (focal, density) = (photo.focal(), photo.density);
    let size = (photo.width, photo.height);
    let picture = Picture::of(photo.width, photo.height, photo.pixels);
    let picture = picture.ok_or_else(|| "The photo is not whole; take it again.".to_owned())?;
    let ask = Ask {
        scale: wanted.scale,
        face: wanted.face,
        is_drawn: wanted.is_drawn,
        thickness: (wanted.thickness, wanted.unsure),
        focal,
        density,
        corners: wanted.corners.map(|corners| corners.map(Point::from)),
        is_concave: wanted.is_concave,
        hidden: wanted.hidden.clone(),
        edge_points: wanted
            .edge_points
            .iter()
            .copied()
            .map(Point::from)
            .collect(),
    };
    let begins = |stage| {
        let over = Stage::ALL.iter().take_while(|one| **one != stage);
        let all = Stage::ALL.len() + 1;
        tell((over.count() + 1) as f64 / all as f64);
    };
    Ok(match look(&picture, &ask, begins) {
        Ok(found) => PhotoFound::Measured(Box::new(shown(&picture, &ask, &found))),
        Err(why) => PhotoFound::Refused(NotMeasured {
            word: why.word().to_owned(),
            message: why.to_string(),
            at: why.place().map(|at| (at.x, at.y)),
            size,
        }),
    })
}
