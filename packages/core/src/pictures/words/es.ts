import type { PictureWords } from './texts.js';

export const spanish: PictureWords = {
  hands: { right: 'mano derecha', left: 'mano izquierda' },
  right: 'derecha',
  left: 'izquierda',
  depthTitle: 'El antebrazo entra y sale, {hand}',
  depth:
    'De izquierda a derecha con las notas: el antebrazo está entre {least} y {most} mm del borde delantero de las teclas; entradas: {ins}, salidas: {outs}, pasos: {crossings}.',
  carryTitle: 'El brazo a lo largo del teclado, {hand}',
  carry:
    'De izquierda a derecha con las notas: las teclas que se tocan y el brazo, que recorre en total {travel} mm a la derecha y a la izquierda; pasos: {crossings}.',
  none: 'No hay notas de esta mano.',
  keyboardTitle: 'Teclado, {hand}: {fingers}',
  nothingPlayed: 'ningún dedo toca',
  fingerOn: '{finger} en {key}',
  holding: '{finger} mantiene {key}',
  thumb: 'pulgar',
  forearm: 'El antebrazo está a {depth} mm del borde delantero de las teclas',
  furtherIn: '{mm} mm más adentro que antes',
  furtherOut: '{mm} mm más afuera que antes',
};
