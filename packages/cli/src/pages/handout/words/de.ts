import type { HandoutWords } from './texts.js';

export const german: HandoutWords = {
  untitled: 'Übeblatt',
  student: 'Für {name}',
  teacherNotes: 'Hinweise deiner Lehrkraft',
  contents: 'Inhalt',
  music: 'Die Noten',
  measures: 'Takte {from}–{to}',
  measure: 'Takt {from}',
  asPrinted: 'wie gedruckt',
  easier: 'leichter',
  compared:
    'Bewegung in diesen Takten: {printed} mm wie gedruckt, {easier} mm mit dem leichteren Fingersatz.',
  keyboard: 'Auf der Klaviatur',
  findings: 'Der gedruckte Fingersatz',
  noFindings: 'Keine gedruckte Ziffer kostet merklich mehr Bewegung als eine andere.',
  moreFindings: 'Es gibt noch {count}; „handline review“ nennt sie alle.',
  oneMoreFinding: 'Es gibt noch eine; „handline review“ nennt sie.',
  place: 'Takt {measure}, Zählzeit {beat}, {hand}',
  hands: { right: 'rechte Hand', left: 'linke Hand' },
  signs: 'Was die Zeichen bedeuten',
  ribbon:
    'Das Band unter den Noten zeigt den Unterarm von oben: oben ist zum Tastenende hin, unten zum Spieler hin.',
  signIn: 'der Unterarm geht mit dieser Note hinein, um 5 mm oder mehr',
  signOut: 'der Unterarm kommt mit dieser Note heraus, um 5 mm oder mehr',
  signStays: 'der Unterarm bleibt ungefähr, wo er ist',
  signBlack: 'schattiert: hier liegt die Spitze von 3 zwischen den schwarzen Tasten',
  signLifted: 'gestrichelt: die Hand ist von den Tasten gelöst und frei',
  signUnder: 'ein Bogen unter dem Band: der Daumen wird untergesetzt, hier hinter {finger}',
  signOver: 'ein Bogen über dem Band: ein Finger wird übergesetzt, hier {finger}',
  signCarry:
    'die Linie zwischen den Ringen ist der Arm die Klaviatur entlang; ein Ring ist eine gespielte Taste',
  viewPlays: 'auf der Klaviatur ein voller Ring: der Finger, der spielt',
  viewHolds: 'ein gestrichelter Ring: ein Finger, der hält',
  viewElsewhere: 'ein gepunkteter Ring: ein Finger, der schon fort ist oder erst kommt',
  viewDepth: 'die Linie quer über die Tasten: wie weit innen der Unterarm ist',
  viewMove: 'der Pfeil neben den Tasten: der Weg des Unterarms nach innen oder außen',
  viewWay: 'der gestrichelte Pfeil zwischen Tasten: der Weg des Daumens oder des Fingers, der über ihn geht',
  viewArm: 'der Umriss vor den Tasten: der Unterarm',
  caution: 'Vorsicht',
  engraved:
    'Bezeichnet von Handline {version}. Notenstich: verovio, freie Software unter der LGPL 3.0 oder neuer.',
};
