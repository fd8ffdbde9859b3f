/** A refusal in words for people, which crosses to the page as it stands. Every other error is a fault of the program. */
export class Refused extends Error {}
