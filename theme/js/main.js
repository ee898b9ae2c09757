// Starts what a page has use for. Each module finds its own place in the page and does nothing where it has none.
import { bindAsk } from "./ask/opening.js";
import { bindContents } from "./contents.js";
import { bindKept } from "./kept/opening.js";
import { bindNames } from "./names.js";
import { bindPractice } from "./practice/opening.js";
import { bindProgress } from "./progress.js";
import { bindScrollers } from "./scrollers.js";
import { bindSearch } from "./search.js";
import { bindAloud } from "./sound/aloud.js";
import { bindSound } from "./sound/controls.js";
import { bindTicks } from "./ticks.js";
import { bindTurn } from "./turn.js";
import { bindView } from "./view.js";

bindView();
bindTurn();
bindNames();
bindContents();
bindProgress();
bindPractice();
bindSound();
bindAloud();
bindTicks();
bindSearch();
bindAsk();
bindScrollers();
bindKept();
